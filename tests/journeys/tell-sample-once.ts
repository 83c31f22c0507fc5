import BetterSqlite from 'better-sqlite3';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/**
 * Has the program tell its sample cellar once, and leaves the file where each journey's program copies it from
 * (`UNDERCROFT_TOLD_SAMPLE`). What is given back sweeps it away after the last journey.
 */
export default async function tellSampleOnce(): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-told-'));
  const entry = resolve(import.meta.dirname, '../../out/main/serve.js');
  const program = spawn(process.execPath, [entry, '--ready-line', '--demo'], {
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, XDG_DATA_HOME: folder, ...{ TMPDIR: folder, TEMP: folder, TMP: folder } },
  });
  const ended = once(program, 'exit');
  let said = '';
  const ready = new Promise<void>((settle) => {
    program.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      if (/^READY /m.test(said)) settle();
    });
  });
  const isReady = await Promise.race([ready.then(() => true), ended.then(() => false)]);
  if (!isReady) throw new Error(`The program ended without telling its sample. It said: ${said}`);
  // Asked to end it would throw its sample away.
  program.kill('SIGKILL');
  await ended;
  const name = readdirSync(folder).find((each) => each.startsWith('undercroft-sample-'));
  if (name === undefined) throw new Error('The program left no sample.');
  const file = join(folder, name, 'sample.undercroft');
  // What lies in the log beside the file is brought into it.
  const sample = new BetterSqlite(file);
  sample.pragma('journal_mode = DELETE');
  sample.close();
  process.env['UNDERCROFT_TOLD_SAMPLE'] = file;
  return () => {
    rmSync(folder, { recursive: true, force: true });
  };
}
