import type { Database } from 'better-sqlite3';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Labelled } from '#core/contract/labels.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import type { LabelFacts, Strength } from '#core/labels/label-facts.ts';
import type { LabelTarget } from '#core/labels/label-code.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { BatchRecord, FillRecord, LotRecord } from '#core/ledger/records.ts';
import { newest, inspectNewest } from '#core/safety/inspect.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Quantity, SafetyFacts } from '#core/safety/facts.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { VerdictSource } from '../safety/verdict-source.ts';
import type { LiquidStory } from '../shelves/liquid-story.ts';
import type { ShelvesProjection } from '../shelves/shelves-projection.ts';
import type { Standing } from '../shelves/standing-facts.ts';
import { openBottledStandings } from './bottled-standing.ts';

/** What the book knows, at the time of asking, of something that gets a label. */
export interface LabelFactsQuery {
  /** Null when it is no longer there. */
  of(labelled: Labelled, rules: Pick<HouseRules, 'jurisdiction'>, nowMs: number): LabelFacts | null;
}

const READINGS_LOOKED_AT = 200;
/** Batches taken from batches: further back than any home cellar goes. */
const GENERATIONS_MAX = 60;

export function openLabelFacts(
  sqlite: Database,
  records: RecordStore,
  shelves: ShelvesProjection,
  story: LiquidStory,
  verdicts: VerdictSource,
): LabelFactsQuery {
  const bottled = openBottledStandings(sqlite, records);
  const fillsOf = sqlite
    .prepare('SELECT id FROM fill WHERE batch_id = ? ORDER BY volume_ul DESC, id')
    .pluck();
  const lotsLeft = sqlite
    .prepare('SELECT id FROM lot WHERE batch_id = ? AND bottles_left > 0 ORDER BY at_ms DESC, id')
    .pluck();
  const sequenceOf = sqlite.prepare('SELECT sequence FROM entry WHERE entry_id = ?').pluck();
  const addedTo = sqlite
    .prepare(
      `SELECT json_extract(ingredient, '$.name') FROM addition WHERE batch_id = ? AND at_ms <= ? ORDER BY at_ms, id`,
    )
    .pluck();
  const letterOf = sqlite.prepare('SELECT letter FROM shelf WHERE id = ?').pluck();

  /** The batch and those it was taken from, itself first. */
  const line = (batch: BatchRecord): readonly BatchRecord[] => {
    const all = [batch];
    for (let at = batch; at.parentBatchId !== null && all.length < GENERATIONS_MAX;) {
      const parent = records.get('batch', at.parentBatchId);
      if (parent === null) break;
      all.push(parent);
      at = parent;
    }
    return all;
  };

  /** Everything that went into a liquid and into those that were poured into it, as it was called. */
  const ingredientsOf = (batch: BatchRecord, fill: FillRecord | null, untilMs: number): readonly string[] => {
    const joined = Object.keys(fill?.origins ?? {}).flatMap((id) => records.get('batch', id) ?? []);
    const batches = new Map([...line(batch), ...joined.flatMap(line)].map((b) => [b.id, b]));
    const names = [...batches.values()].flatMap(({ id, ingredients }) => [
      ...ingredients.map(({ name }) => name),
      ...(addedTo.all(id, untilMs) as string[]),
    ]);
    return [...new Map(names.map((name) => [name.toLowerCase(), name])).values()];
  };

  const stagesOf = (
    batch: BatchRecord,
    fills: readonly FillRecord[],
    untilMs: number,
  ): LabelFacts['stages'] => {
    const [only] = fills;
    const vessels =
      only === undefined || fills.length > 1
        ? null
        : new Set<string>([only.id, ...only.trail.map(({ vesselId }) => vesselId)]);
    const spans = story
      .spans(batch)
      .filter(({ fromMs }) => fromMs <= untilMs)
      .filter(({ batchId, vesselId }) => batchId !== batch.id || vessels === null || vessels.has(vesselId));
    return spans.filter(({ stage }, at) => spans[at - 1]?.stage !== stage);
  };

  const ofLiquid = (
    target: LabelTarget,
    batch: BatchRecord,
    standings: readonly Standing[],
    lot: LotRecord | null,
    rules: Pick<HouseRules, 'jurisdiction'>,
    nowMs: number,
  ): LabelFacts => {
    const [main] = standings;
    const untilMs = lot?.atMs ?? nowMs;
    const looked = standings.map((standing) => verdicts.withFacts(standing, rules, nowMs));
    const facts = looked.map((one) => one.facts);
    const parent = batch.parentBatchId === null ? null : records.get('batch', batch.parentBatchId);
    const cultureId = main?.fill.cultureId ?? batch.keepsCultureId;
    const culture = cultureId === null ? null : records.get('culture', cultureId);
    // Bottles stand in no vessel.
    const [one] =
      standings.length === 1 && main !== undefined && main.fill.id === main.vessel.id ? [main.vessel] : [];
    const stage = main?.fill.stage ?? null;
    return {
      ...{ target, batchCode: batch.code, name: batch.name, ferment: batch.ferment, stage },
      ...{
        vesselNumber: one?.number ?? null,
        spot: one === undefined ? null : spotOf(one.shelfId, one.position),
      },
      parentName: parent?.name ?? null,
      startedAtMs: Math.min(...line(batch).map(({ startedAtMs }) => startedAtMs)),
      ...{ batchStartedAtMs: batch.startedAtMs, bottledAtMs: lot?.atMs ?? null },
      stages: stagesOf(
        batch,
        standings.map(({ fill }) => fill),
        untilMs,
      ),
      ...strengths(batch, stage, facts),
      culture:
        culture === null ? null : { name: culture.name, sort: culture.sort, pull: main?.fill.pull ?? null },
      ingredients: ingredientsOf(batch, main?.fill ?? null, untilMs),
      sulfites: facts.some(({ sulfiteAdded }) => sulfiteAdded === true)
        ? true
        : (facts[0]?.sulfiteAdded ?? null),
      verdicts: looked.flatMap((one) => one.verdicts),
    };
  };

  const spotOf = (shelfId: string | null, position: number | null): string | null => {
    const letter = shelfId === null ? undefined : (letterOf.get(shelfId) as string | undefined);
    return letter === undefined || position === null ? null : `${letter}${position}`;
  };

  const standingIn = (vesselId: VesselId): Standing[] => {
    const standing = shelves.standing(vesselId, READINGS_LOOKED_AT);
    return standing === null ? [] : [standing];
  };

  const lotStanding = (lotId: string): { readonly lot: LotRecord; readonly batch: BatchRecord } | null => {
    const lot = records.get('lot', lotId);
    const batch = lot === null ? null : records.get('batch', lot.batchId);
    return lot === null || batch === null ? null : { lot, batch };
  };

  return {
    of(labelled, rules, nowMs) {
      switch (labelled.kind) {
        case 'vessel': {
          const vessel = records.get('vessel', labelled.vesselId);
          if (vessel === null) return null;
          const target = { kind: 'vessel', number: vessel.number } as const;
          const [standing] = standingIn(vessel.id);
          if (standing !== undefined) return ofLiquid(target, standing.batch, [standing], null, rules, nowMs);
          return emptyVessel(target, vessel.name, spotOf(vessel.shelfId, vessel.position));
        }
        case 'batch': {
          const batch = records.get('batch', labelled.batchId);
          if (batch === null) return null;
          const target = { kind: 'batch', code: batch.code } as const;
          const standings = (fillsOf.all(batch.id) as VesselId[]).flatMap(standingIn);
          // What no longer stands in a vessel is in its bottles, if it is anywhere.
          const lots = standings.length > 0 ? [] : (lotsLeft.all(batch.id) as string[]);
          const inBottles = lots.flatMap((id) => {
            const found = lotStanding(id);
            return found === null ? [] : (bottled.of(found.lot, batch) ?? []);
          });
          return ofLiquid(target, batch, [...standings, ...inBottles], null, rules, nowMs);
        }
        case 'lot': {
          const found = lotStanding(labelled.lotId);
          if (found === null) return null;
          const { lot, batch } = found;
          const sequence = sequenceOf.get(lot.id) as number;
          const standing = bottled.of(lot, batch);
          return ofLiquid(
            { kind: 'lot', code: batch.code, sequence },
            ...([batch, standing === null ? [] : [standing], lot, rules, nowMs] as const),
          );
        }
      }
    },
  };
}

function emptyVessel(target: LabelTarget, name: string, spot: string | null): LabelFacts {
  return {
    ...{
      target,
      batchCode: null,
      name,
      ferment: null,
      stage: null,
      vesselNumber: null,
      spot,
      parentName: null,
    },
    ...{ startedAtMs: null, batchStartedAtMs: null, bottledAtMs: null, stages: [], acidity: null, ph: null },
    ...{ alcohol: null, culture: null, ingredients: [], sulfites: null, verdicts: null },
  };
}

/** What each liquid measures, as far as the rules of freshness let it speak; of several the one that is least sour or strongest counts. */
function strengths(
  { ferment }: BatchRecord,
  stage: FillRecord['stage'] | null,
  facts: readonly SafetyFacts[],
): Pick<LabelFacts, 'acidity' | 'ph' | 'alcohol'> {
  const profile = FERMENTS[ferment];
  const asked =
    (stage === null ? undefined : profile.headline[stage]) ?? profile.headlineOtherwise.slice(0, 1);
  const of = (
    quantity: Quantity,
    expected: boolean,
    worse: (a: number, b: number) => boolean,
  ): Strength | null => {
    const all = facts.map((one) => strengthOf(quantity, one));
    if (!expected && all.every(({ kind }) => kind === 'none')) return null;
    const unspoken = all.find(({ kind }) => kind !== 'measured');
    if (unspoken !== undefined) return all.length > 1 ? { kind: 'notFresh' } : unspoken;
    return all.reduce<Strength>(
      (worst, one) =>
        worst.kind === 'measured' && one.kind === 'measured' && !worse(one.value, worst.value) ? worst : one,
      all[0] ?? { kind: 'none' },
    );
  };
  const isDrink = profile.sugarSource !== null && !profile.becomesVinegar;
  return {
    acidity: of('acidity', asked.includes('acidity'), (a, b) => a < b),
    ph: of('pH', asked.includes('ph'), (a, b) => a > b),
    alcohol: of('alcohol', isDrink, (a, b) => a > b),
  };
}

function strengthOf(quantity: Quantity, facts: SafetyFacts): Strength {
  const { usable, measurement } = inspectNewest(quantity, facts, WHOLE_BOOK.measurementRules);
  if (newest(quantity, facts) === null) return { kind: 'none' };
  if (usable === null || measurement === null) return { kind: 'notFresh' };
  return { kind: 'measured', value: usable.value, takenAtMs: measurement.takenAtMs };
}
