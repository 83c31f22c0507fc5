import { copyFileSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readSeal } from '#main/strongbox/seal-file.ts';
import { verifyBackup } from '#main/strongbox/look-inside.ts';
import { NOW, openDeskOn, scratchFolder } from '../desk-for-tests.ts';
import { ended } from './backups-for-tests.ts';

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});
const KEPT = join(import.meta.dirname, '../../migrations/cellars');

describe('a file of an earlier version', { timeout: 60_000 }, () => {
  it.each(readdirSync(KEPT).filter((name) => name.endsWith('.undercroft')))(
    '%s is backed up, sealed and proven, before it is brought to this one',
    async (name) => {
      const folder = join(scratch.folder, name);
      mkdirSync(folder);
      const home = join(folder, 'home.undercroft');
      copyFileSync(join(KEPT, name), home);
      const desk = openDeskOn(home);
      const [backup = ''] = readdirSync(join(folder, 'backups'));
      expect(backup).toMatch(/before a new version\.undercroft-backup$/);
      const file = join(folder, 'backups', backup);
      expect(readSeal(file)).toMatchObject({ reason: 'beforeMigration', madeAtMs: NOW });
      const verified = await ended(
        verifyBackup({ file, passphrase: null, workFolder: join(folder, 'work') }, undefined),
      );
      expect(`version-${verified.fileVersion}.undercroft`).toBe(name);
      // It can be restored by this program, which then brings it to its own version.
      const steps = await desk.client.strongbox.restore({ file, passphrase: null });
      for (;;) {
        const step = await steps.next();
        if (step.done !== true) continue;
        expect(step.value.about.entryCount).toBe(verified.counts.entries);
        break;
      }
      desk.close();
    },
  );

  it('has a plain copy left beside it where the folder of backups cannot be made', () => {
    const folder = join(scratch.folder, 'no-backups');
    mkdirSync(folder);
    writeFileSync(join(folder, 'backups'), 'in its way');
    const home = join(folder, 'home.undercroft');
    copyFileSync(join(KEPT, 'version-1.undercroft'), home);
    openDeskOn(home).close();
    expect(readdirSync(folder).some((name) => name.startsWith('home.undercroft.before-version-'))).toBe(true);
    rmSync(folder, { recursive: true });
  });
});
