import type { ChildProcess } from 'node:child_process';

const START_LIMIT_MS = 60_000;

/** The address that a built host prints when it is ready. */
export function entranceOf(host: ChildProcess): Promise<string> {
  return new Promise((found, failed) => {
    let said = '';
    const tooLong = setTimeout(() => {
      failed(new Error('Undercroft did not open in time.'));
    }, START_LIMIT_MS);
    host.stdout?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const entrance = /^READY (\S+)$/m.exec(said)?.[1];
      if (entrance === undefined) return;
      clearTimeout(tooLong);
      found(entrance);
    });
    host.once('exit', (code) => {
      clearTimeout(tooLong);
      failed(new Error(`Undercroft ended with ${code ?? 'a signal'} before it was open.`));
    });
  });
}

/** The bootstrap's own way of finding one; it is plain JavaScript, which is why it is described here. */
export async function browserProgram(): Promise<string | undefined> {
  const { href } = new URL('../src-main/bootstrap/find-browser.mjs', import.meta.url);
  const bootstrap = (await import(href)) as {
    findBrowser: (given: { platform: string; env: NodeJS.ProcessEnv }) => string | undefined;
  };
  return bootstrap.findBrowser({ platform: process.platform, env: process.env });
}
