import fc from 'fast-check';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ORPCError } from '@orpc/client';
import type { ActDraft } from '#core/ledger/act.ts';
import { openMemoryCellar } from '#core/ledger/memory-cellar.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { canonical } from '#main/cellar/check-cellar.ts';
import { PROJECTED_TABLES, rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import { randomUUID } from 'node:crypto';
import { ACT_SIDES, actFrom, type Dice } from '../../core/ledger/random-acts.ts';
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
function someLine(desk: TestDesk, share: number): { requestId: string; entryId: EntryId } {
  const { book } = desk.app.desk.services.session;
  const [line] = book.page(Math.floor((book.count() * share) / 100), 1);
  if (line === undefined) throw new Error('the book has lines');
  return { requestId: randomUUID(), entryId: line.id };
}

/** A line taken back with all that follows from it. */
function someRetelling(desk: TestDesk, share: number) {
  const { requestId, entryId } = someLine(desk, share);
  return { requestId, corrections: [{ entryId, act: null, happenedAtMs: null }], reason: '' };
}

/** The dice speak of vessels by number and of ids of their own; the service gives out its own, so they are put in place. */
function draftFrom(roll: Dice, vesselIds: readonly VesselId[], cultureId: string): ActDraft | null {
  const act = actFrom(roll, openMemoryCellar());
  const text = JSON.stringify(act, (key, value: unknown) => {
    // What comes in is weighed by the program itself; only an assay is told by the keeper.
    if (key === 'massesUg' && act.kind !== 'reconcile') return undefined;
    if (typeof value !== 'string') return value;
    if (key.toLowerCase().endsWith('vesselid')) return vesselIds[Number(value.slice(-2)) - 1];
    if (key === 'cultureId') return act.kind === 'addCulture' ? undefined : cultureId;
    return key === 'batchId' || key === 'code' ? undefined : value;
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
        const { vesselId } = await begun(desk);
        const vesselIds = [vesselId];
        while (vesselIds.length < 6) vesselIds.push((await desk.write('addVessel', jar())).vesselId);
        const mother = await desk.write('addCulture', {
          ...{ kind: 'addCulture', name: 'Old Bess', sort: 'mother', source: '', note: '' },
          ...{ parentCultureId: null, standing: null },
        });
        for (const [index, roll] of rolls.entries()) {
          const draft = draftFrom(roll, vesselIds, mother.cultureId);
          if (draft === null) continue;
          try {
            await desk.post(draft, NOW);
            written += 1;
            if (index % 7 === 3) await desk.client.ledger.undo({ requestId: randomUUID() });
            if (index % 14 === 3) await desk.client.ledger.redo({ requestId: randomUUID() });
            if (index % 5 === 2) await desk.client.ledger.restate(someRetelling(desk, roll.share));
            if (index % 3 === 1) await desk.client.ledger.strike(someLine(desk, roll.share));
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
      { numRuns: 10, endOnFailure: true },
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
