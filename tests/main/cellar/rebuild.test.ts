import fc from 'fast-check';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ORPCError } from '@orpc/client';
import type { Act, ActDraft } from '#core/ledger/act.ts';
import type { CultureId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { RecordKind, RecordsByKind } from '#core/ledger/records.ts';
import { canonical } from '#main/cellar/check-cellar.ts';
import { PROJECTED_TABLES, rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import type { StoredEntry } from '#main/ledger/book-store.ts';
import { RECORD_TABLES } from '#main/ledger/ledger.tables.ts';
import { getTableName } from 'drizzle-orm';
import { randomUUID } from 'node:crypto';
import { ACT_SIDES, actFrom, isCorrection, retelling, type Dice } from '../../core/ledger/random-acts.ts';
import { begun, jar, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});

const dice: fc.Arbitrary<Dice> = fc.record({
  ...{ act: fc.nat(ACT_SIDES - 1), one: fc.nat(5), other: fc.nat(5), share: fc.nat(99), lees: fc.nat(20) },
});

/** Everything the projections hold, in a set order. */
function dump(desk: TestDesk): Record<string, unknown[]> {
  const { sqlite } = desk.app.desk.services.session.cellar;
  return Object.fromEntries(
    PROJECTED_TABLES.map((table) => [
      table,
      sqlite.prepare(`SELECT * FROM "${table}"`).all().map(canonical).sort(),
    ]),
  );
}

/** A line of the book, anywhere in it. */
function someLine(desk: TestDesk, share: number): StoredEntry {
  const { book } = desk.app.desk.services.session;
  const [line] = book.page(Math.floor((book.count() * share) / 100), 1);
  if (line === undefined) throw new Error('the book has lines');
  return line;
}

/** A line told anew with another amount, elsewhere, or taken back, with all that follows from it. */
function someRetelling(desk: TestDesk, roll: Dice, world: World) {
  const line = someLine(desk, roll.share);
  const told = retelling(roll, line);
  const [correction] = told.kind === 'restate' ? told.corrections : [];
  const act = correction?.act ?? null;
  const draft = act === null || isCorrection(line.act) ? null : asDraft(act, world);
  const corrections = [{ entryId: line.id, act: draft, happenedAtMs: null }];
  return { corrections, reason: '' };
}

/** What the dice call by number. */
interface World {
  readonly vesselIds: readonly VesselId[];
  readonly cultureIds: readonly CultureId[];
  readonly shelfId: ShelfId;
}

/** The cellar as the dice look at it. */
function seenByDice(desk: TestDesk, world: World): Parameters<typeof actFrom>[1] {
  const { records, cellar, book } = desk.app.desk.services.session;
  return {
    get: (kind, id) => records.get(kind, worldly(id, world) ?? id),
    entries: book.page(0, 10_000),
    records: <K extends RecordKind>(kind: K) => {
      const ids = cellar.sqlite.prepare(`SELECT id FROM "${getTableName(RECORD_TABLES[kind])}" ORDER BY id`);
      const all = (ids.pluck().all() as string[]).map((id) => [id, records.get(kind, id)] as const);
      return new Map(all) as ReadonlyMap<string, RecordsByKind[K]>;
    },
  };
}

/** The id in the file of what the dice call by number; null where they name nothing. */
function worldly(id: string, { vesselIds, cultureIds, shelfId }: World): string | null {
  const number = Number(id.slice(-2)) - 1;
  if (id.startsWith('00000002-')) return shelfId;
  if (id.startsWith('00000003-')) return vesselIds[number] ?? null;
  return id.startsWith('00000005-') ? (cultureIds[number] ?? null) : null;
}

/** What the service itself gives out when it writes an act. */
const GIVEN_OUT: Readonly<Partial<Record<Act['kind'], readonly string[]>>> = {
  addPlace: ['placeId'],
  addShelf: ['shelfId', 'letter'],
  addVessel: ['vesselId', 'number'],
  addCulture: ['cultureId'],
};

/** The act as it is asked for: without what the service gives out, and with ids as the file has them. */
function asDraft(act: Act, world: World): ActDraft {
  const inside = new Set(['code', 'contractions', ...(GIVEN_OUT[act.kind] ?? [])]);
  const isBegun = ['startBatch', 'addCulture', 'transfer', 'split', 'blend', 'drawAndRefill'].includes(
    act.kind,
  );
  if (isBegun) inside.add('batchId');
  // What comes in is weighed by the program itself; only an assay is told by the keeper.
  if (act.kind !== 'reconcile') inside.add('massesUg');
  const text = JSON.stringify(act, (key, value: unknown) => {
    if (inside.has(key)) return undefined;
    return typeof value === 'string' ? (worldly(value, world) ?? value) : value;
  });
  return JSON.parse(text) as ActDraft;
}

describe('the projections', () => {
  it('are the same, to the last byte, when they are dropped and rebuilt from the book', async () => {
    let files = 0;
    let written = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(dice, { minLength: 30, maxLength: 60 }), async (rolls) => {
        const desk = openDeskOn(join(scratch.folder, `rebuild-${(files += 1)}.undercroft`));
        const { vesselId, shelfId } = await begun(desk);
        const vesselIds = [vesselId];
        while (vesselIds.length < 6) vesselIds.push((await desk.write('addVessel', jar())).vesselId);
        const cultureIds: CultureId[] = [];
        for (const name of ['Old Bess', 'Red Martha']) {
          const mother = await desk.write('addCulture', {
            ...{ kind: 'addCulture', name, sort: 'mother', source: '', note: '' },
            ...{ parentCultureId: null, standing: null },
          });
          cultureIds.push(mother.cultureId);
        }
        const world = { vesselIds, cultureIds, shelfId };
        const { ledger } = desk.client;
        for (const [index, roll] of rolls.entries()) {
          const act = actFrom(roll, seenByDice(desk, world));
          try {
            const requestId = randomUUID();
            const posted = await desk.post(asDraft(act, world), NOW, requestId);
            written += 1;
            const again = await desk.post(asDraft(act, world), NOW, requestId);
            expect(again.entry.entryId).toBe(posted.entry.entryId);
            if (index % 7 === 3) await ledger.undo({ requestId: randomUUID() });
            if (index % 14 === 3) await ledger.redo({ requestId: randomUUID() });
            if (index % 3 === 2) {
              const asked = someRetelling(desk, roll, world);
              const { vessels } = await ledger.planRestate(asked);
              await ledger.restate({ requestId: randomUUID(), ...asked });
              const { records } = desk.app.desk.services.session;
              for (const { vesselId: id, afterUl } of vessels)
                expect(records.get('fill', id)?.volumeUl ?? 0).toBe(afterUl);
            }
            if (index % 5 === 1) {
              const entryId = someLine(desk, roll.share).id;
              await ledger.strike({ requestId: randomUUID(), entryId });
            }
          } catch (error) {
            if (!(error instanceof ORPCError && error.code === 'REFUSED')) throw error;
          }
        }
        const live = dump(desk);
        rebuildProjections(desk.app.desk.services.session);
        expect(dump(desk)).toEqual(live);
        const steps = await desk.client.cellar.check();
        for (let step = await steps.next(); ; step = await steps.next()) {
          if (step.done !== true) continue;
          expect(step.value.faults).toEqual([]);
          break;
        }
        desk.close();
      }),
      { numRuns: 6, endOnFailure: true },
    );
    expect(written).toBeGreaterThan(70);
  }, 180_000);

  it('are checked: a ticket or a record that was tampered with is found', async () => {
    const desk = openDeskOn(join(scratch.folder, 'tampered.undercroft'));
    await begun(desk);
    const { sqlite } = desk.app.desk.services.session.cellar;
    sqlite.exec(`UPDATE fill SET volume_ul = volume_ul + 1`);
    const steps = await desk.client.cellar.check();
    for (let step = await steps.next(); ; step = await steps.next()) {
      if (step.done !== true) continue;
      expect(step.value.sound).toBe(false);
      expect(step.value.faults.map((f) => f.type).sort()).toEqual(['DiffersFromTheBook', 'TicketDiffers']);
      break;
    }
    rebuildProjections(desk.app.desk.services.session);
    desk.close();
  });
});
