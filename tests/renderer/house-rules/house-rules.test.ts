import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { CheckReport, Progress } from '#core/contract/cellar.ts';
import { readCalibration } from '#renderer/house-rules/calibration.ts';
import { copyNameFor, saySize } from '#renderer/house-rules/copy-name.ts';
import { LICENCES } from '#renderer/house-rules/licences.ts';
import { sayCheck, sayCheckFault, sayProgress } from '#renderer/words/check-words.ts';
import { sayFileRefusal } from '#renderer/words/file-words.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

describe('the temperature a hydrometer is marked for', () => {
  it('is read in either scale', () => {
    expect(readCalibration('20', HOUSE_RULES_AT_FIRST)).toEqual({ type: 'celsius', celsius: 20 });
    expect(readCalibration('60 F', HOUSE_RULES_AT_FIRST)).toEqual({ type: 'celsius', celsius: 15.56 });
    expect(readCalibration('68', { ...HOUSE_RULES_AT_FIRST, temperature: 'F' })).toEqual({
      type: 'celsius',
      celsius: 20,
    });
  });

  it.each(['', 'warm', '41 C', '-1 C', '200', '20 L'])('is asked for again: %j', (text) => {
    expect(readCalibration(text, HOUSE_RULES_AT_FIRST).type).toBe('wrong');
  });
});

describe('a copy', () => {
  it('is proposed beside the cellar, with the day', () => {
    expect(copyNameFor('/home/k/cellar.undercroft', '2026-11-25')).toBe(
      '/home/k/cellar copy 2026-11-25.undercroft',
    );
    expect(copyNameFor('C:\\k\\my.old cellar', '2026-11-25')).toBe('C:\\k\\my copy 2026-11-25.old cellar');
    expect(copyNameFor('/home/k.d/cellar', '2026-11-25')).toBe('/home/k.d/cellar copy 2026-11-25');
  });

  it('has a size a person can read', () => {
    expect(saySize(512)).toBe('512 bytes');
    expect(saySize(840_000)).toBe('840 kB');
    expect(saySize(12_400_000)).toBe('12.4 MB');
  });
});

describe('the words of long work and of a check', () => {
  it('count', () => {
    const progress: Progress = { what: 'book', done: 3420, total: 10_000 };
    expect(sayProgress(progress)).toBe('Adding up the lines of the book: 3,420 of 10,000.');
  });

  it('never call a cellar sound that is not', () => {
    const report: CheckReport = {
      sound: false,
      entries: 4,
      faults: [{ type: 'FileDamaged', detail: 'page 3' }],
    };
    expect(sayCheck(report)).toContain('One fault');
    expect(sayCheck({ ...report, sound: true, faults: [] })).toContain('the 4 lines of the book add up');
    expect(sayCheckFault(report.faults[0] ?? { type: '', detail: '' })).toBe(
      'The file itself is damaged: page 3',
    );
    expect(sayCheckFault({ type: 'NewSort', detail: '' })).toBe('NewSort.');
  });
});

describe('the words for a file that was refused', () => {
  const file = '/home/k/x.undercroft';
  it.each([
    { type: 'NotACellar', file },
    { type: 'NewerVersion', file, fileVersion: 9, programVersion: 1 },
    { type: 'Damaged', file, detail: 'SQLITE_CORRUPT' },
    { type: 'InUse', file },
    { type: 'FolderReadOnly', file },
    { type: 'FolderMissing', file },
    { type: 'DiskFull', file },
    { type: 'AlreadyThere', file },
    { type: 'BadPath', file },
    { type: 'CellarsName', file },
    { type: 'NoSuchFile', file },
    { type: 'OtherFault', file, detail: 'EIO' },
  ] as const)('name the file and what to do: $type', (refusal) => {
    expect(sayFileRefusal(refusal)).toContain(file);
    expect(sayFileRefusal(refusal)).toMatch(/\.$/u);
  });
});

describe('the licences', () => {
  it('name every package the program is made with', () => {
    const { dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      dependencies: Record<string, string>;
    };
    const named = LICENCES.map(({ name }) => name.toLowerCase().replaceAll(/[^a-z0-9]/gu, '')).join(' ');
    for (const dependency of Object.keys(dependencies)) {
      const scope = /^@(?!fontsource)([^/]+)\//u.exec(dependency)?.[1];
      const wanted = (scope ?? dependency.replace(/^@[^/]+\//u, '')).replaceAll(/[^a-z0-9]/gu, '');
      expect(named, dependency).toContain(wanted.replace(/^chartjs$/u, 'chartjs'));
    }
  });
});
