import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balances } from '#core/ledger/postings.ts';
import { replay, type MemoryCellar } from '#core/ledger/memory-cellar.ts';
import { POINTERS, RECORD_KINDS, type RecordKind } from '#core/ledger/records.ts';
import { mother, testCellar, vessel, type TestCellar } from './cellar-of.ts';
import { ACT_SIDES, actOrReversal, VESSELS, type Dice } from './random-acts.ts';

const dice: fc.Arbitrary<Dice> = fc.record({
  act: fc.nat(ACT_SIDES - 1),
  one: fc.nat(VESSELS - 1),
  other: fc.nat(VESSELS - 1),
  share: fc.nat(99),
  lees: fc.nat(20),
});
const history = fc.array(dice, { minLength: 20, maxLength: 80 });
const RUNS = 250;

function play(rolls: readonly Dice[]): TestCellar {
  const t = testCellar();
  for (let n = 1; n <= VESSELS; n += 1) t.given(vessel(n, n));
  t.given(mother(1));
  for (const roll of rolls) t.post(actOrReversal(roll, t.cellar));
  return t;
}

function standing(cellar: MemoryCellar, except: readonly string[] = []): object {
  return Object.fromEntries(
    RECORD_KINDS.filter((kind) => !except.includes(kind)).map((kind) => [
      kind,
      Object.fromEntries(cellar.records(kind)),
    ]),
  );
}

describe('random histories', () => {
  let written = 0;

  it('balance in every entry, and vessels hold exactly what was posted to them, never below nothing or above the brim', () => {
    fc.assert(
      fc.property(history, (rolls) => {
        const { cellar } = play(rolls);
        written += cellar.entries.length;
        const posted = new Map<string, number>();
        for (const entry of cellar.entries) {
          expect(balances(entry.postings)).toBe(true);
          for (const { account, deltaUl } of entry.postings) {
            posted.set(account, (posted.get(account) ?? 0) + deltaUl);
          }
        }
        for (const v of cellar.records('vessel').values()) {
          const heldUl = cellar.get('fill', v.id)?.volumeUl ?? 0;
          expect(heldUl).toBe(posted.get(v.id) ?? 0);
          expect(heldUl).toBeGreaterThanOrEqual(0);
          expect(heldUl).toBeLessThanOrEqual(v.capacityUl);
          if (v.retired) expect(heldUl).toBe(0);
        }
        // What was posted to a vessel that is not there any more has been posted back to the last drop.
        for (const [account, ul] of posted)
          if (cellar.get('vessel', account) === null && account.includes('-')) expect(ul).toBe(0);
        for (const [kind, pointers] of Object.entries(POINTERS) as [
          RecordKind,
          readonly [RecordKind, string][],
        ][])
          for (const [from, field] of pointers)
            for (const record of cellar.records(from).values()) {
              const id = (record as unknown as Record<string, string | null>)[field] ?? null;
              if (id !== null) expect(cellar.get(kind, id)).not.toBeNull();
            }
      }),
      { numRuns: RUNS },
    );
  });

  it('give the same cellar when they are replayed from the book', () => {
    fc.assert(
      fc.property(history, (rolls) => {
        const { cellar } = play(rolls);
        written += cellar.entries.length;
        expect(standing(replay(cellar.entries))).toEqual(standing(cellar));
      }),
      { numRuns: RUNS },
    );
  });

  it('undone from the last act to the first give the cellar they began with, and redone the one they ended with', () => {
    fc.assert(
      fc.property(history, (rolls) => {
        const t = play([]);
        const before = standing(t.cellar, ['strike']);
        const setUp = t.cellar.entries.length;
        for (const roll of rolls) t.post(actOrReversal(roll, t.cellar));
        const after = standing(t.cellar, ['strike']);
        const acts = t.cellar.entries.slice(setUp);
        const undone = [...acts]
          .reverse()
          .map(({ id }) => t.given({ kind: 'reverse', entryId: id, how: 'undo' }));
        expect(standing(t.cellar, ['strike'])).toEqual(before);
        for (const id of undone.reverse()) t.given({ kind: 'reverse', entryId: id, how: 'redo' });
        expect(standing(t.cellar, ['strike'])).toEqual(after);
        written += t.cellar.entries.length;
      }),
      { numRuns: RUNS },
    );
  });

  it('keep every token of origin: what is left anywhere is never more than was filled in', () => {
    fc.assert(
      fc.property(history, (rolls) => {
        const { cellar } = play(rolls);
        written += cellar.entries.length;
        const left = new Map<string, number>();
        for (const fill of cellar.records('fill').values()) {
          for (const [origin, tokens] of Object.entries(fill.origins)) {
            expect(Number.isSafeInteger(tokens) && tokens > 0).toBe(true);
            left.set(origin, (left.get(origin) ?? 0) + tokens);
          }
        }
        for (const [origin, tokens] of left) {
          expect(tokens).toBeLessThanOrEqual(cellar.get('batch', origin)?.startedUl ?? 0);
        }
      }),
      { numRuns: RUNS },
    );
  });

  it('were long enough to mean something: ten thousand entries in all', () => {
    expect(written).toBeGreaterThan(10_000);
  });
});
