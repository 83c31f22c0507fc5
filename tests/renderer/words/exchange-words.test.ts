import { describe, expect, it } from 'vitest';
import { QUESTIONS } from '#core/contract/looked-over.ts';
import { RowProblem, rowProblem } from '#core/exchange/row-problem.ts';
import { fixedOffset } from '#core/quantities/civil-time.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { sayCounts, sayQuestion, sayRowProblem, sayTable } from '#renderer/words/exchange-words.ts';
import { sayEntry } from '#renderer/words/act-words.ts';
import { sayStep } from '#renderer/words/step-words.ts';
import { NOTHING_READ } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';

const context = { house: METRIC_HOUSE, localTime: fixedOffset(0), rules: { dates: 'iso' as const } };
const house = { volume: 'metric', temperature: 'C', gravity: 'SG' } as const;

describe('why a row does not come in', () => {
  it.each(RowProblem.shape.type.options)('%s is one sentence with what it speaks of', (type) => {
    const problem = rowProblem(type, 'gravity', '1,480', { known: ['factorTen', 'B1', 'C2'], number: 3 });
    const said = sayRowProblem(problem, context);
    expect(said).toMatch(/^[\p{Lu}“\d].*\.$/u);
    expect(said).not.toMatch(/undefined|null|NaN|\[object/u);
  });
});

it.each(QUESTIONS)('%s is asked in words', (question) => {
  expect(sayQuestion(question)).toMatch(/^[A-Z].*\.$/u);
});

it('counts what becomes of the rows, and leaves out what there is none of', () => {
  expect(sayCounts({ rows: 5000, ready: 4987, alreadyThere: 10, doubtful: 2, refused: 1 })).toBe(
    '4,987 rows to bring in, 10 in the book already, 2 in doubt, 1 that cannot come in.',
  );
  expect(sayCounts({ rows: 1, ready: 1, alreadyThere: 0, doubtful: 0, refused: 0 })).toBe(
    '1 row to bring in.',
  );
});

it('a table without words of its own is called by its name', () => {
  expect(sayTable('told-facts')).toBe('Told facts');
  expect(sayTable('new-things')).toBe('New things');
});

describe('a step of the book', () => {
  const values = { ...NOTHING_READ, ph: 3.4 };
  const act = { kind: 'recordReading' as const, vesselId: 'v' as VesselId, values };
  const alone = { act, names: { v: 'B1' }, reversed: null };
  it('of one line is that line, of many their number', () => {
    expect(sayStep(alone, house)).toBe(sayEntry(alone, house));
    expect(sayStep({ ...alone, together: 4987 }, house)).toBe('4,987 readings brought in.');
    const back = { kind: 'reverse' as const, entryId: 'e' as EntryId, how: 'undo' as const };
    const reversed = { act, happenedAtMs: 0, names: {} };
    expect(sayStep({ act: back, names: {}, reversed, together: 2 }, house)).toBe(
      'Taken back: 2 readings brought in.',
    );
  });
});
