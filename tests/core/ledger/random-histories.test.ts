import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { addMasses, COMPONENTS, type MassDeltas } from '#core/ledger/masses.ts';
import { balances } from '#core/ledger/postings.ts';
import type { Act } from '#core/ledger/act.ts';
import type { Entry } from '#core/ledger/entry.ts';
import { openMemoryCellar, replay, type MemoryCellar } from '#core/ledger/memory-cellar.ts';
import { postEntry } from '#core/ledger/post-entry.ts';
import { POINTERS, RECORD_KINDS, type RecordKind } from '#core/ledger/records.ts';
import { batch, LITRE, mother, place, shelf, testCellar, vessel, type TestCellar } from './cellar-of.ts';
import {
  ACT_SIDES,
  actOrRetelling,
  actOrReversal,
  isCorrection,
  mustOf,
  POSITIONS,
  retelling,
  spiritOf,
  VESSELS,
  type Dice,
} from './random-acts.ts';

const dice: fc.Arbitrary<Dice> = fc.record({
  act: fc.nat(ACT_SIDES - 1),
  one: fc.nat(VESSELS - 1),
  other: fc.nat(VESSELS - 1),
  share: fc.nat(99),
  lees: fc.nat(20),
});
const history = fc.array(dice, { minLength: 20, maxLength: 80 });
const RUNS = 250;
// Long histories take their time on a machine with other work.
vi.setConfig({ testTimeout: 60_000 });

function play(rolls: readonly Dice[], next = actOrReversal): TestCellar {
  const t = testCellar();
  t.given(place(), shelf(1, POSITIONS));
  for (let n = 1; n <= VESSELS; n += 1) t.given(vessel(n, n));
  t.given(mother(1), mother(2));
  // Spirit, must and water to begin with, so that much of what is joined shrinks.
  t.given({ ...batch(901, 6, 4), massesUg: spiritOf(4 * LITRE) } as Act);
  t.given({ ...batch(902, 5, 3), massesUg: mustOf(3 * LITRE) } as Act);
  for (const roll of rolls) t.post(next(roll, t.cellar));
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

/**
 * What stands, without who wrote it, marks of correction, and numbers of pulls: a number once written on a jar is kept,
 * also when an earlier one is taken back.
 */
function unnumbered(cellar: MemoryCellar): object {
  return Object.fromEntries(
    RECORD_KINDS.filter((kind) => kind !== 'strike' && kind !== 'restatement').map((kind) => [
      kind,
      Object.fromEntries(
        [...cellar.records(kind)].map(([id, record]) => [
          id,
          { ...record, writtenBy: null, pull: null, number: kind === 'vessel' ? id : null },
        ]),
      ),
    ]),
  );
}

describe('random histories', () => {
  let written = 0;
  let shrunk = 0;
  const count = ({ entries }: MemoryCellar): void => {
    written += entries.length;
    shrunk += entries.filter(({ act }) => 'contractions' in act).length;
  };

  it('balance in every entry, and vessels hold exactly what was posted to them, never below nothing or above the brim', () => {
    fc.assert(
      fc.property(history, (rolls) => {
        const { cellar } = play(rolls);
        count(cellar);
        const posted = new Map<string, number>();
        const weighed = new Map<string, MassDeltas>();
        for (const entry of cellar.entries) {
          expect(balances(entry.postings)).toBe(true);
          for (const { account, deltaUl, massesUg = {} } of entry.postings) {
            posted.set(account, (posted.get(account) ?? 0) + deltaUl);
            weighed.set(account, addMasses(weighed.get(account) ?? {}, massesUg));
          }
        }
        const bottled = [...cellar.records('lot').values()];
        expect(bottled.reduce((sum, { left, bottleUl }) => sum + left * bottleUl, 0)).toBe(
          posted.get('bottles') ?? 0,
        );
        expect(bottled.reduce((sum, { massesUg }) => addMasses(sum, massesUg), {})).toEqual(
          weighed.get('bottles') ?? {},
        );
        for (const v of cellar.records('vessel').values()) {
          const heldUl = cellar.get('fill', v.id)?.volumeUl ?? 0;
          expect(heldUl).toBe(posted.get(v.id) ?? 0);
          const heldUg = cellar.get('fill', v.id)?.massesUg ?? {};
          expect(heldUg).toEqual(weighed.get(v.id) ?? {});
          for (const component of COMPONENTS) expect(heldUg[component] ?? 0).toBeGreaterThanOrEqual(0);
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
        count(cellar);
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
        count(t.cellar);
      }),
      { numRuns: RUNS },
    );
  });

  it('keep every token of origin: what is left anywhere is never more than was filled in', () => {
    fc.assert(
      fc.property(history, (rolls) => {
        const { cellar } = play(rolls);
        count(cellar);
        const left = new Map<string, number>();
        for (const { origins } of [...cellar.records('fill').values(), ...cellar.records('lot').values()]) {
          for (const [origin, tokens] of Object.entries(origins)) {
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

  it('told anew give the cellar they would have been, had the line been right from the start', () => {
    let compared = 0;
    fc.assert(
      fc.property(history, dice, (rolls, last) => {
        // Striking leaves standing what was read of a liquid meanwhile, so a line of telling alone is compared.
        const t = play(rolls, (roll, cellar) => actOrRetelling(roll, cellar));
        const kept = t.cellar.entries.filter(
          ({ act, id }) => !isCorrection(act) && t.cellar.get('strike', id) === null,
        );
        const target = kept[Math.floor((kept.length * last.share) / 100)];
        if (target === undefined) return;
        const restating = retelling(last, target);
        if (!t.post(restating).ok) return;
        const told = (entry: Entry): Act => t.cellar.get('restatement', entry.id)?.act ?? entry.act;
        const again = openMemoryCellar();
        for (const entry of t.cellar.entries) {
          if (isCorrection(entry.act) || t.cellar.get('strike', entry.id) !== null) continue;
          const { id: entryId } = entry;
          const { happenedAtMs } = t.cellar.get('restatement', entryId) ?? entry;
          const outcome = postEntry(again, told(entry), { entryId, happenedAtMs, nowMs: happenedAtMs });
          if (!outcome.ok) throw new Error(`${entry.act.kind} is refused: ${outcome.error.type}`);
          again.append({ ...entry, act: told(entry), postings: outcome.value.postings }, outcome.value);
        }
        compared += 1;
        expect(unnumbered(again)).toEqual(unnumbered(t.cellar));
      }),
      { numRuns: RUNS },
    );
    expect(compared).toBeGreaterThan(RUNS / 4);
  });

  it('were long enough to mean something: ten thousand entries in all', () => {
    expect(written).toBeGreaterThan(10_000);
    expect(shrunk).toBeGreaterThan(100);
  });
});
