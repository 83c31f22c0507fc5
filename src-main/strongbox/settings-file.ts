import { randomBytes } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { StrongboxSettings } from '#core/contract/strongbox.ts';
import { ROTATION_AT_FIRST } from '#core/strongbox/rotation.ts';

export const SETTINGS_AT_FIRST: StrongboxSettings = {
  ...{ folders: [], onClosing: true, daily: true, encrypt: false, keep: ROTATION_AT_FIRST },
};

/** What this computer does about backups. A file that cannot be read counts as none: backups then go on as at first. */
export function readSettings(file: string): StrongboxSettings {
  try {
    const read = StrongboxSettings.safeParse(JSON.parse(readFileSync(file, 'utf8')));
    return read.success ? read.data : SETTINGS_AT_FIRST;
  } catch {
    return SETTINGS_AT_FIRST;
  }
}

/** Written whole under a passing name and renamed, so that a cut leaves the old or the new. */
export function writeSettings(file: string, settings: StrongboxSettings): void {
  mkdirSync(dirname(file), { recursive: true });
  const passing = `${file}.${randomBytes(6).toString('hex')}`;
  writeFileSync(passing, `${JSON.stringify(settings, null, 2)}\n`, { mode: 0o600 });
  renameSync(passing, file);
}
