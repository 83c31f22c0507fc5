import { describe, expect, it } from 'vitest';
import { ADVICE, ADVICE_NOT_USED } from './advice.ts';
import { readReference, type ReferenceRow } from './read-reference.ts';
import { reckoningFor } from './reckonings.ts';
import { ROWS_NOT_COVERED } from './rows-not-covered.ts';

const rows = readReference();
const isRange = (row: ReferenceRow) => row.tolerance === 'range';
const isCovered = (row: ReferenceRow) =>
  !isRange(row) && reckoningFor(row.id) !== null && !(row.id in ROWS_NOT_COVERED);

describe('a published value', () => {
  for (const row of rows.filter(isCovered)) {
    it(`[${row.id}] ${row.quantity}`, () => {
      compare(reckoningFor(row.id)?.(row.inputs, row.id), row.expected, row);
    });
  }
});

describe('the table', () => {
  it('holds every row once', () => {
    expect(rows).toHaveLength(365);
    expect(new Set(rows.map(({ id }) => id)).size).toBe(365);
  });
  it('is covered but for the rows listed with a reason', () => {
    const missed = rows.filter((row) => !isRange(row) && !isCovered(row)).map(({ id }) => id);
    expect(missed.sort()).toEqual(Object.keys(ROWS_NOT_COVERED).sort());
    for (const reason of Object.values(ROWS_NOT_COVERED)) expect(reason.length).toBeGreaterThan(20);
    // A row may only be left out for a misprint that is one: no strength is above 100 % vol.
    for (const { expected, unit } of rows.filter(({ id }) => id in ROWS_NOT_COVERED)) {
      expect(unit).toBe('% vol');
      expect(expected).toBeGreaterThan(100);
    }
  });
});

describe('an advisory range', () => {
  for (const row of rows.filter(isRange)) {
    const ours = ADVICE[row.id];
    if (!ours) continue;
    it(`[${row.id}] ${row.quantity}`, () => {
      const [low, high] = row.expected as readonly [number, number];
      expect(ours.low).toBeGreaterThanOrEqual(low);
      expect(ours.high).toBeLessThanOrEqual(high);
    });
  }
  it('is used or has a reason not to be', () => {
    const named = [...Object.keys(ADVICE), ...Object.keys(ADVICE_NOT_USED)];
    expect(named.sort()).toEqual(
      rows
        .filter(isRange)
        .map(({ id }) => id)
        .sort(),
    );
  });
});

/** A number, a list or a record of numbers, each within the row's own tolerance. */
function compare(actual: unknown, expected: unknown, row: ReferenceRow): void {
  if (typeof expected === 'number') {
    if (typeof actual !== 'number') throw new Error(`${row.id}: no number but ${JSON.stringify(actual)}`);
    const difference = Math.abs(actual - expected);
    // The last bits of a printed decimal are not the value's: they are allowed for.
    const allowed = allowance(row.tolerance, expected) + 1e-12 * Math.abs(expected);
    expect(difference, `${row.id}: ${actual}, published ${expected} ${row.unit}`).toBeLessThanOrEqual(
      allowed,
    );
    return;
  }
  const wanted = expected as Readonly<Record<string, unknown>>;
  const given = actual as Readonly<Record<string, unknown>>;
  expect(Object.keys(wanted).length).toBeGreaterThan(0);
  for (const [key, value] of Object.entries(wanted)) compare(given[key], value, row);
}

function allowance(tolerance: string, expected: number): number {
  const [kind, size] = tolerance.split(':');
  if (kind === 'abs') return Number(size);
  if (kind === 'rel') return Number(size) * Math.abs(expected);
  throw new Error(`Unknown tolerance ${tolerance}`);
}
