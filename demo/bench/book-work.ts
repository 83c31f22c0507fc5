import { createRouterClient } from '@orpc/server';
import { randomUUID } from 'node:crypto';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { rebuildProjections } from '../../src-main/cellar/rebuild-projections.ts';
import { compose } from '../../src-main/compose.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { loadFile } from './load-files.ts';
import { MANY } from './opening.ts';
import { ms, times, type BenchLine } from './report.ts';
import { median, sideBySide } from './side-by-side.ts';

const FEW = 10_000;
const RACKING_GOAL = 1.5;
const REBUILT = 100_000;
const REBUILD_GOAL_PER_S = 100_000;
const DESCENDANTS = 50;
const CORRECTION_GOAL_MS = 200;
const DAY = 86_400_000;

/** Work on the book itself: a racking in a long one, all projections made anew, and a year-old line told anew. */
export async function bookWork(rounds: number): Promise<BenchLine[]> {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-bench-book-'));
  try {
    return [
      ...(await racking(folder, rounds)),
      rebuild(folder),
      await correction(folder, Math.min(rounds, 40)),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function racking(folder: string, rounds: number): Promise<BenchLine[]> {
  const open = async (entries: number) => {
    const cellar = join(folder, `racking-${entries}.undercroft`);
    copyFileSync(loadFile(200, entries), cellar);
    const undercroft = compose({ cellar, dataFolder: folder, clock: () => SAMPLE_NOW_MS });
    const client = createRouterClient(undercroft.router);
    const filled = await client.shelves.choose({ wanted: 'filled', text: '', limit: 60 });
    const [one, other] = filled.filter(({ volumeUl }) => volumeUl > 1_000_000);
    if (one === undefined || other === undefined)
      throw new Error('the load cellar has no two filled vessels');
    let there = true;
    return {
      close: () => {
        undercroft.close();
      },
      async rack() {
        // There and back by turns, so that neither is ever emptied.
        const [from, to] = there ? [one, other] : [other, one];
        there = !there;
        await client.ledger.post({
          ...{ requestId: randomUUID(), happenedAtMs: null, typed: {} },
          act: pour(from.vesselId, to.vesselId, 1000),
        });
      },
    };
  };
  const few = await open(FEW);
  const many = await open(MANY);
  const [fewMs = NaN, manyMs = NaN] = await sideBySide([() => few.rack(), () => many.rack()], {
    rounds,
    warmUp: 10,
  });
  few.close();
  many.close();
  return [
    {
      what: `one racking, written and projected, in a book of ${MANY} lines`,
      ...{ measured: ms(manyMs), beside: `${ms(fewMs)} in one of ${FEW}`, ratio: times(manyMs / fewMs) },
      ...{ goal: `<= ${RACKING_GOAL}x`, met: manyMs / fewMs <= RACKING_GOAL },
    },
  ];
}

function rebuild(folder: string): BenchLine {
  const cellar = join(folder, 'rebuild.undercroft');
  copyFileSync(loadFile(200, REBUILT), cellar);
  const undercroft = compose({ cellar, dataFolder: folder, clock: () => SAMPLE_NOW_MS });
  try {
    const { session } = undercroft.desk.services;
    const readAt = performance.now();
    let read = 0;
    for (let page = session.book.page(0, 2000); page.length > 0; page = session.book.page(read, 2000)) {
      read = page.at(-1)?.sequence ?? read;
    }
    const readMs = performance.now() - readAt;
    const startedAt = performance.now();
    const entries = rebuildProjections(session);
    const perSecond = entries / ((performance.now() - startedAt) / 1000);
    return {
      what: `all projections made anew, lines a second, of ${entries}`,
      measured: `${Math.round(perSecond)} /s`,
      beside: `${Math.round(read / (readMs / 1000))} /s only read and checked`,
      ratio: times(perSecond / (read / (readMs / 1000))),
      ...{ goal: `>= ${REBUILD_GOAL_PER_S} /s`, met: perSecond >= REBUILD_GOAL_PER_S },
    };
  } finally {
    undercroft.close();
  }
}

/** A must that went into fifty jars a year ago; its first volume told anew, and taken back again. */
async function correction(folder: string, rounds: number): Promise<BenchLine> {
  const cellar = join(folder, 'correction.undercroft');
  const undercroft = compose({ cellar, dataFolder: folder, clock: () => SAMPLE_NOW_MS });
  const client = createRouterClient(undercroft.router);
  const post = async (act: ActDraft, day: number) =>
    (
      await client.ledger.post({
        ...{ requestId: randomUUID(), act, typed: {} },
        happenedAtMs: SAMPLE_NOW_MS - (365 - day) * DAY,
      })
    ).entry;
  const vessel = async (litres: number): Promise<VesselId> => {
    const { act } = await post(jar(litres), 0);
    if (act.kind !== 'addVessel') throw new Error('no vessel');
    return act.vesselId;
  };
  try {
    await client.cellar.begin({ name: 'Bench', houseRules: HOUSE_RULES_AT_FIRST, shelves: null });
    const vat = await vessel(200);
    const start = must(vat, 100);
    const { entryId } = await post(start, 1);
    for (let n = 0; n < DESCENDANTS; n += 1) {
      await post(pour(vat, await vessel(2), 1_000_000, `Part ${n + 1}`), 2 + n);
    }
    const restate = (litres: number) =>
      client.ledger.restate({
        ...{ requestId: randomUUID(), reason: '' },
        corrections: [{ entryId, act: must(vat, litres), happenedAtMs: null }],
      });
    const plainMs: number[] = [];
    const toldMs: number[] = [];
    for (let round = 0; round < rounds; round += 1) {
      const startedAt = performance.now();
      await restate(90 + (round % 2));
      toldMs.push(performance.now() - startedAt);
      await client.ledger.undo({ requestId: randomUUID() });
      const plainAt = performance.now();
      await post({ kind: 'sample', vesselId: vat, volumeUl: 1, purpose: 'ph', note: '' }, 360);
      plainMs.push(performance.now() - plainAt);
      await client.ledger.undo({ requestId: randomUUID() });
    }
    const [told, plain] = [median(toldMs), median(plainMs)];
    return {
      what: `a year-old line told anew, ${DESCENDANTS} batches descend from it`,
      ...{ measured: ms(told), beside: `${ms(plain)} one plain line`, ratio: times(told / plain) },
      ...{ goal: `< ${CORRECTION_GOAL_MS} ms`, met: told < CORRECTION_GOAL_MS },
    };
  } finally {
    undercroft.close();
  }
}

function pour(from: VesselId, to: VesselId, volumeUl: number, name: string | null = null): ActDraft {
  return {
    ...{ kind: 'transfer', fromVesselId: from, toVesselId: to, volumeUl, leesUl: 0, toStage: null },
    newBatch: name === null ? null : { name, ferment: 'fruitVinegar' },
  };
}

function jar(litres: number): ActDraft {
  return {
    ...{ kind: 'addVessel', name: '', silhouette: 'jar', capacityUl: litres * 1_000_000, mouth: 'wide' },
    ...{ material: 'glass', closure: 'cloth', note: '', shelfId: null, position: null },
  };
}

function must(vesselId: VesselId, litres: number): ActDraft {
  return {
    ...{ kind: 'startBatch', name: 'Apple must', ferment: 'fruitVinegar', vesselId, stage: 'waiting' },
    ...{ volumeUl: litres * 1_000_000, ingredients: [], measured: null, note: '' },
  };
}
