import { spawn } from 'node:child_process';
import { join, resolve } from 'node:path';
import { electronProgram } from './find-electron.mjs';

// What `npm run dev` runs: the page from a development server that shows an edit at once, the host restarted when its
// code changes. Without an Electron program the loopback host stands in for it.

const root = resolve(import.meta.dirname, '../..');
const standIn =
  electronProgram(root) === undefined
    ? { ELECTRON_EXEC_PATH: process.execPath, ELECTRON_ENTRY: join(root, 'out/main/serve.js') }
    : {};

const child = spawn(
  process.execPath,
  [join(root, 'node_modules/electron-vite/bin/electron-vite.js'), 'dev', '--watch'],
  { cwd: root, stdio: 'inherit', env: { ...process.env, ...standIn } },
);
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
  process.on(signal, () => child.kill(signal));
}
child.once('exit', (code) => {
  process.exitCode = code ?? 1;
});
