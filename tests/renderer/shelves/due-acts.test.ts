import { expect, test } from 'vitest';
import type { DueCheck } from '#core/contract/shelves.ts';
import type { CultureId } from '#core/ledger/ids.ts';
import { dueAnswer } from '#renderer/shelves/due-acts.ts';
import { vesselId } from './rows-for-tests.ts';

const ACTS: Readonly<Record<DueCheck['act'], string>> = {
  ...{ pitch: 'pitchYeast', gravity: 'reading', acidity: 'titrate', ph: 'reading', rack: 'transfer' },
  ...{ seed: 'seed', taste: 'taste', look: 'look', feed: 'feedCulture', bottle: 'bottle' },
};

test('whatever is due has the form beside it that does it', () => {
  const row = { vesselId: vesselId(1) };
  const cultureId = vesselId(2) as unknown as CultureId;
  for (const [act, kind] of Object.entries(ACTS)) {
    const answer = dueAnswer(row, act as DueCheck['act'], cultureId);
    expect(answer?.request.kind).toBe(kind);
    expect(answer?.label).toMatch(/^[A-Z].*…$/);
  }
});

test('a feeding of no known culture has none', () => {
  expect(dueAnswer({ vesselId: vesselId(1) }, 'feed')).toBeNull();
});
