import { ORPCError } from '@orpc/client';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { NOTHING_READ, type ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { pick, type Chance } from './hostile-values.ts';
import type { CellarClient } from './killable-host.ts';
import { randomUUID } from 'node:crypto';

const LITRE = 1_000_000;

/** What a keeper was told is written. Kept by whoever outlives the program. */
export interface Acknowledged {
  /** Ids of lines, in the order they were acknowledged. */
  readonly entryIds: string[];
  /** A request that was sent and not answered: it may be in the book or not, and sent again it is there once. */
  unanswered: { readonly requestId: string; readonly act: ActDraft } | null;
}

/** Begins a cellar that was never begun. */
export async function beginIfNew(client: CellarClient): Promise<void> {
  if ((await client.cellar.about()).begun) return;
  await client.cellar.begin({
    ...{ name: 'Killed cellar', houseRules: HOUSE_RULES_AT_FIRST },
    shelves: { placeName: 'Pantry', shelfCount: 1, positions: 40 },
  });
}

/** Works in the cellar, one act after the other, until the program is gone or `until` says so. Never throws. */
export async function keepBusy(
  client: CellarClient,
  kept: Acknowledged,
  { chance, until }: { readonly chance: Chance; readonly until: () => boolean },
): Promise<void> {
  try {
    await beginIfNew(client);
    await sendAgain(client, kept);
    const vesselIds = (await client.shelves.choose({ wanted: 'any', text: '', limit: 100 })).map(
      ({ vesselId }) => vesselId,
    );
    while (!until()) await actOnce(client, kept, { chance, vesselIds });
  } catch {
    // The program is gone in the middle of a call: what was acknowledged until then is all that counts.
  }
}

async function sendAgain(client: CellarClient, kept: Acknowledged): Promise<void> {
  if (kept.unanswered === null) return;
  const { requestId, act } = kept.unanswered;
  await refusable(async () => {
    const { entry } = await client.ledger.post({ requestId, act, happenedAtMs: null, typed: {} });
    kept.entryIds.push(entry.entryId);
  });
  kept.unanswered = null;
}

interface Acting {
  readonly chance: Chance;
  readonly vesselIds: VesselId[];
}

async function actOnce(
  client: CellarClient,
  kept: Acknowledged,
  { chance, vesselIds }: Acting,
): Promise<void> {
  const turn = chance();
  if (turn < 0.04 && kept.entryIds.length > 3) {
    const undone = chance() < 0.7 ? client.ledger.undo : client.ledger.redo;
    await refusable(async () => {
      kept.entryIds.push((await undone({ requestId: randomUUID() })).entry.entryId);
    });
    return;
  }
  const requestId = randomUUID();
  const act = nextAct(chance, vesselIds);
  kept.unanswered = { requestId, act };
  await refusable(async () => {
    const { entry } = await client.ledger.post({
      requestId,
      act,
      happenedAtMs: null,
      typed: { quick: '1.048' },
    });
    kept.entryIds.push(entry.entryId);
    if (entry.act.kind === 'addVessel') vesselIds.push(entry.act.vesselId);
  });
  kept.unanswered = null;
}

function nextAct(chance: Chance, vesselIds: readonly VesselId[]): ActDraft {
  if (vesselIds.length < 2 || (vesselIds.length < 30 && chance() < 0.1)) {
    return {
      ...{ kind: 'addVessel', name: '', silhouette: 'demijohn', capacityUl: 5 * LITRE, mouth: 'narrow' },
      ...{ material: 'glass', closure: 'airlock', note: '', shelfId: null, position: null },
    };
  }
  const vesselId = pick(chance, vesselIds);
  return pick<() => ActDraft>(chance, [
    () => ({
      ...{ kind: 'startBatch', name: 'Windfall must', ferment: 'cider', vesselId, volumeUl: 4 * LITRE },
      ...{ stage: 'yeast', ingredients: [], measured: null, note: '' },
    }),
    () => ({ kind: 'recordReading', vesselId, values: { ...NOTHING_READ, gravitySg: 1 + chance() / 10 } }),
    () => ({ kind: 'recordReading', vesselId, values: { ...NOTHING_READ, temperatureCelsius: 18 } }),
    () => ({ kind: 'drawOff', vesselId, volumeUl: 1 + Math.floor(chance() * 200_000), purpose: '' }),
    () => ({
      kind: 'note',
      about: { kind: 'vessel', vesselId },
      text: 'cloudy '.repeat(Math.floor(chance() * 300)),
    }),
    () => ({
      ...{ kind: 'transfer', fromVesselId: vesselId, toVesselId: pick(chance, vesselIds) },
      ...{ volumeUl: LITRE, leesUl: 0, newBatch: null, toStage: null },
    }),
  ])();
}

/** A refusal is an answer: nothing was written, and nothing is owed. */
async function refusable(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof ORPCError && error.defined)) throw error;
  }
}
