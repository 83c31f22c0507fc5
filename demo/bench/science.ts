import { foresee } from '../../src-core/ferments/foresight.ts';
import { acidityAsAcetic } from '../../src-core/ferments/interpret-reading.ts';
import { FERMENTS } from '../../src-core/ferments/registry.ts';
import { NOTHING_READ } from '../../src-core/ledger/act.ts';
import type { BatchId, EntryId, VesselId } from '../../src-core/ledger/ids.ts';
import type { ReadingRecord } from '../../src-core/ledger/records.ts';
import { evaluate } from '../../src-core/safety/evaluate.ts';
import type { SafetyFacts } from '../../src-core/safety/facts.ts';
import { measurementsOf } from '../../src-main/safety/measurements.ts';
import { ms, times, type BenchLine } from './report.ts';
import { sideBySide } from './side-by-side.ts';

const SIZES = [1000, 10_000] as const;
const PASS_GOAL_MS = 100;
const GROWTH_GOAL = 10 * 1.2;
const VERDICT_GOAL_US = 50;
const DAY_MS = 86_400_000;

/** What follows from each vessel's own readings, for every vessel in one pass; and one whole verdict a vessel. */
export async function science(rounds: number): Promise<BenchLine[]> {
  const few = Math.max(4, Math.round(rounds / 20));
  const cellars = SIZES.map((size) => Array.from({ length: size }, (_, n) => readingsOf(n)));
  const passes = await sideBySide(
    cellars.map((vessels) => () => {
      for (const readings of vessels) workOut(readings);
    }),
    { rounds: few, warmUp: 2 },
  );
  const facts = (cellars[1] ?? []).map(factsOf);
  const [verdicts = 0] = await sideBySide(
    [
      () => {
        for (const fact of facts) evaluate('labelAsVinegar', fact);
      },
    ],
    { rounds: few, warmUp: 2 },
  );
  const [small = 0, large = 0] = passes;
  const eachUs = (verdicts * 1000) / facts.length;
  return [
    {
      what: 'the reckonings of 10,000 vessels in one pass',
      measured: ms(large),
      beside: `1,000 vessels ${ms(small)}`,
      ratio: times(large / small),
      goal: `under ${PASS_GOAL_MS} ms, growth at most ${GROWTH_GOAL.toFixed(0)}`,
      met: large <= PASS_GOAL_MS && large / small <= GROWTH_GOAL,
    },
    {
      what: 'one whole verdict, all rules of a use',
      measured: `${eachUs.toFixed(1)} µs`,
      beside: `the mean of ${facts.length.toLocaleString('en-GB')} vessels`,
      ratio: times(eachUs / VERDICT_GOAL_US),
      goal: `under ${VERDICT_GOAL_US} µs`,
      met: eachUs <= VERDICT_GOAL_US,
    },
  ];
}

const idOf = <T extends string>(n: number): T =>
  `019a0000-0000-7000-8000-${String(n).padStart(12, '0')}` as T;

/** A vessel's life in seven readings: a must, a ferment that falls, a vinegar that rises. Each differs a little. */
function readingsOf(n: number): ReadingRecord[] {
  const drift = (n % 40) / 1000;
  const at = (day: number, values: Partial<ReadingRecord['values']>): ReadingRecord => ({
    ...{
      id: idOf<EntryId>(n * 10 + day),
      writtenBy: idOf<EntryId>(n * 10 + day),
      vesselId: idOf<VesselId>(n),
    },
    ...{ batchId: idOf<BatchId>(n), atMs: day * DAY_MS, values: { ...NOTHING_READ, ...values } },
  });
  const gravity = (gravitySg: number, temperatureCelsius: number) =>
    ({
      gravitySg,
      temperatureCelsius,
      gravityInstrument: 'hydrometer',
      gravityCalibrationCelsius: 20,
    }) as const;
  const acidity = (acidityGramsPer100Ml: number) =>
    ({ acidityGramsPer100Ml, acidityAs: 'acetic', acidityMethod: 'burette' }) as const;
  return [
    at(0, { ...gravity(1.04 + drift, 22), ph: 3.5, phMethod: 'meterToday' }),
    at(3, gravity(1.03 + drift / 2, 21)),
    at(6, gravity(1.015 + drift / 4, 20)),
    at(9, gravity(1.001, 19)),
    at(20, acidity(1.2)),
    at(35, acidity(2.9 + drift)),
    at(50, { ...acidity(4.6 + drift * 20), ph: 2.9, phMethod: 'meterToday' }),
  ];
}

function workOut(readings: readonly ReadingRecord[]): void {
  for (const { values } of readings) acidityAsAcetic(values);
  foresee({ profile: FERMENTS.fruitVinegar, readings, yeastFromMs: DAY_MS, motherFromMs: 15 * DAY_MS });
}

function factsOf(readings: readonly ReadingRecord[]): SafetyFacts {
  return {
    ...{ nowMs: 51 * DAY_MS, measurements: readings.flatMap(measurementsOf), compositionEvents: [] },
    ...{ origin: 'home_made', openToAir: true, liveCulture: true, bottledFull: null, pasteurised: null },
    ...{ addedWater: false, boughtLabelPercent: null, hoursSinceProcessing: null, jurisdiction: 'us' },
    ...{ labelAudience: 'own', product: 'vinegar', rawMaterial: 'juice' },
  };
}
