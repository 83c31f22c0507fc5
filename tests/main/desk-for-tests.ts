import { createRouterClient } from '@orpc/server';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { randomUUID } from 'node:crypto';
import { afterAll, afterEach, beforeEach } from 'vitest';
import type { Posted } from '#core/contract/ledger.ts';
import type { Act, ActDraft, ActKind, ActOf } from '#core/ledger/act.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { compose, type Undercroft } from '#main/compose.ts';

export const NOW = Date.UTC(2026, 10, 25, 12);
export const DAY = 86_400_000;
export const LITRE = 1_000_000;

/** A folder of its own for one test file, thrown away at the end by whoever made it. */
export function scratchFolder(): { readonly folder: string; remove(): void } {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-test-'));
  return {
    folder,
    remove: () => {
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export function openDeskOn(cellar: string, clock: () => number = () => NOW) {
  const app = compose({ cellar, dataFolder: join(cellar, '..'), clock });
  return deskOf(app);
}

/** The program as a host calls it, without a host: every call still passes the contract's schemas. */
export function deskOf(app: Undercroft) {
  const client = createRouterClient(app.router, { context: {} });
  const post = (
    act: ActDraft,
    happenedAtMs: number | null = null,
    requestId: string = randomUUID(),
  ): Promise<Posted> => client.ledger.post({ requestId, act, happenedAtMs, typed: {} });
  /** Posts an act and hands back the act as written, ids included. */
  const write = async <K extends ActKind>(
    kind: K,
    act: ActDraft,
    happenedAtMs: number | null = null,
  ): Promise<ActOf<K>> => {
    const written: Act = (await post(act, happenedAtMs)).entry.act;
    if (written.kind !== kind) throw new Error(`wrote ${written.kind} instead of ${kind}`);
    return written as ActOf<K>;
  };
  return { app, client, post, write, close: () => app.close() };
}
export type TestDesk = ReturnType<typeof openDeskOn>;

export const jar = (over: Partial<Extract<ActDraft, { kind: 'addVessel' }>> = {}): ActDraft => ({
  ...{
    kind: 'addVessel',
    name: '',
    silhouette: 'jar',
    capacityUl: 5 * LITRE,
    mouth: 'wide',
    material: 'glass',
  },
  ...{ closure: 'cloth', note: '', shelfId: null, position: null },
  ...over,
});

export const must = (
  vesselId: ActOf<'startBatch'>['vesselId'],
  litres = 4,
  name = 'Apple must',
): ActDraft => ({
  ...{
    kind: 'startBatch',
    name,
    ferment: 'fruitVinegar',
    vesselId,
    volumeUl: litres * LITRE,
    stage: 'waiting',
  },
  ...{ ingredients: [], measured: null, note: '' },
});

/** A cellar that has been begun, with one shelf and one jar of must. */
export async function begun(desk: TestDesk) {
  await desk.client.cellar.begin({
    ...{ name: 'Test cellar', houseRules: HOUSE_RULES_AT_FIRST },
    shelves: { placeName: 'Pantry', shelfCount: 1, positions: 8 },
  });
  const [pantry] = await desk.client.shelves.places();
  const shelfId = pantry?.shelves[0]?.shelfId;
  if (shelfId === undefined) throw new Error('no shelf');
  const vessel = await desk.write('addVessel', jar({ shelfId, position: 1 }), NOW - 40 * DAY);
  const batch = await desk.write('startBatch', must(vessel.vesselId), NOW - 39 * DAY);
  return { shelfId, vesselId: vessel.vesselId, batchId: batch.batchId };
}

/** A desk on a cellar file of its own for each test of a file. */
export function deskForEach(name: string, use: (desk: TestDesk) => unknown): void {
  const scratch = scratchFolder();
  let count = 0;
  let desk: TestDesk | null = null;
  beforeEach(async () => {
    desk = openDeskOn(join(scratch.folder, `${name}-${(count += 1)}.undercroft`));
    await use(desk);
  });
  afterEach(() => {
    desk?.close();
  });
  afterAll(() => {
    scratch.remove();
  });
}
