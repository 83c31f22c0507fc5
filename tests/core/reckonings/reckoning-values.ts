import type { QuantityKind } from '#core/quantities/understood.ts';
import type { OnlyWhen, Reckoning, ReckoningField, ReckoningValues } from '#core/reckonings/reckoning.ts';

/** The range of a field in canonical units; that of its kind where it names none. */
export function rangeOf(field: Exclude<ReckoningField, { kind: 'choice' }>): {
  readonly low: number;
  readonly high: number;
} {
  if (field.kind === 'number') return field;
  const [low, high] = KIND_RANGE[field.quantity];
  return { low: field.low ?? low, high: field.high ?? high };
}

const KIND_RANGE: Readonly<Record<QuantityKind, readonly [number, number]>> = {
  gravity: [0.95, 1.28],
  acidity: [0, 20],
  pH: [0, 14],
  volume: [0, 1e11],
  temperature: [-20, 100],
  mass: [0, 1e14],
  freeSulfite: [0, 500],
  alcohol: [0, 100],
  salt: [0, 100],
};

/** Values of an ordinary cellar that each reckoning answers, by field. */
const PLAIN: Readonly<Record<string, number>> = {
  reading: 1.048,
  temperatureCelsius: 18,
  gravity: 1.048,
  sugarGramsPerLitre: 120,
  originalGravity: 1.048,
  presentGravity: 1.002,
  volumeUl: 10e6,
  acidityGramsPer100Ml: 6.3,
  sampleMl: 5,
  normality: 0.1,
  baseMl: 40,
  readingBrix: 12,
  originalBrix: 12,
  presentBrix: 6,
  alcoholPercentVol: 6,
  'tabarie.gravity': 0.998,
  residueGravity: 1.01,
  targetGravity: 1.06,
  targetPercentVol: 8,
  'diluteAlcohol.targetPercentVol': 5,
  'diluteAlcohol.alcoholPercentVol': 12,
  firstVolumeUl: 10e6,
  secondVolumeUl: 5e6,
  firstGramsPer100Ml: 7.2,
  secondGramsPer100Ml: 3.9,
  targetGramsPer100Ml: 5,
  firstPercentVol: 12,
  secondPercentVol: 5,
  acidityGramsPerLitre: 6.5,
  startPercentVol: 7,
  nowPercentVol: 2,
  nowGramsPer100Ml: 5,
  pH: 3.2,
  freeMgPerLitre: 10,
  baseVolumeUl: 10e6,
  basePercentVol: 7,
  seedGramsPer100Ml: 6,
  seedVolumeUl: 2e6,
  massUg: 50e9,
  alcoholMadePercentVol: 6,
  pointsPerDay: 5,
  roomCubicMetres: 20,
  firstReading: 1.001,
  secondReading: 1,
  hoursBetween: 72,
  hoursSinceLast: 5,
  ratingVolumes: 3,
  vegetablesUg: 2e9,
  saltUg: 50e6,
  waterUl: 1e6,
  nitrogenMgPerLitre: 90,
  targetMgPerLitre: 200,
};

/** A filled-in form: what each required field of an ordinary cellar holds, and the choices that ask for `because`. */
export function plainValues(reckoning: Reckoning, because?: OnlyWhen): ReckoningValues {
  const values: Record<string, number | string | undefined> = {};
  if (because) values[because.field] = because.is[0];
  for (const field of reckoning.fields) {
    if (field.kind === 'choice' || !field.required) continue;
    const plain = PLAIN[`${reckoning.id}.${field.name}`] ?? PLAIN[field.name];
    if (plain === undefined) throw new Error(`No plain value for ${reckoning.id}.${field.name}`);
    values[field.name] = plain;
  }
  return values;
}
