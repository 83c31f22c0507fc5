import type { HouseRules } from '#core/contract/house-rules.ts';
import { acidityAsAcetic } from '#core/ferments/interpret-reading.ts';
import type {
  BatchRecord,
  ComposedBy,
  FillRecord,
  ReadingRecord,
  VesselRecord,
} from '#core/ledger/records.ts';
import type { Closure, CultureSort, Material } from '#core/ledger/stage.ts';
import type { CompositionEvent, EventKind, SafetyFacts } from '#core/safety/facts.ts';
import type {
  Closing,
  Gauged,
  Product,
  Starter,
  VesselFacts,
  VesselMaterial,
} from '#core/safety/facts-of-uses.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { reachedPasteurising } from '#core/safety/rules/stabilising.ts';
import { asFactsOfUses } from '#core/safety/told-as-facts.ts';
import { measurementsOf } from './measurements.ts';

/** All the book knows of one standing liquid, as the rules want it. */
export interface BookFacts {
  readonly vessel: VesselRecord;
  readonly fill: FillRecord;
  readonly batch: BatchRecord;
  readonly readings: readonly ReadingRecord[];
  readonly told: ToldFacts;
  /** What sort of culture this jar keeps; null when it keeps none. */
  readonly keeps: CultureSort | null;
  /** When yeast, salt or tea first went to work; when a mother first did. Null: not yet. */
  readonly workingFromMs: number | null;
  readonly motherFromMs: number | null;
  readonly cutWithWater: boolean;
  readonly added: ReadonlySet<string>;
  /** What was put into the other liquids that were poured into this one, and whether one of them was a mead. */
  readonly joined: { readonly added: ReadonlySet<string>; readonly mead: boolean };
  readonly rules: Pick<HouseRules, 'jurisdiction'>;
  readonly nowMs: number;
}

/** The facts the rules read: what the book knows, under what the keeper told, which counts where both speak. */
export function safetyFacts(book: BookFacts): SafetyFacts {
  const { vessel, fill, told } = book;
  const composed = EVENT_BY_CAUSE[fill.composedBy];
  const compositionEvents: CompositionEvent[] =
    composed === null ? [] : [{ atMs: fill.composedAtMs, kind: composed }];
  const openToAir = vessel.closure === 'cloth' || vessel.closure === 'open';
  return {
    ...{ nowMs: book.nowMs, measurements: book.readings.flatMap(measurementsOf), compositionEvents },
    // Whatever stands in this cellar was made in it: nothing bought is ever taken for tested vinegar.
    origin: 'home_made',
    openToAir,
    liveCulture:
      fill.stage === 'vinegar' || fill.stage === 'culture' || fill.cultureId !== null ? true : null,
    bottledFull: null,
    pasteurised: pasteurised(told),
    addedWater: book.cutWithWater,
    ...{ boughtLabelPercent: null, hoursSinceProcessing: null, labelAudience: told.labelAudience ?? null },
    jurisdiction: book.rules.jurisdiction,
    product: productOf(book),
    pitched: book.workingFromMs !== null,
    acetificationBegun: book.motherFromMs !== null,
    alcoholSpentAtMs: alcoholSpentAt(book.readings),
    beforeAcetification: beforeAcetification(book),
    // What was told comes first where both speak, but each part of the vessel that was not told is still the book's.
    ...asFactsOfUses(told),
    // What the book shows to be in it is in it, whatever was told before it went in.
    containsHoney: holdsHoney(book) ? true : (told.containsHoney ?? null),
    sulfiteAdded: holdsSulfite(book) ? true : (told.sulfiteAdded ?? null),
    heated: heated(told),
    starter: starterOf(book),
    ferment: {
      ...{ meanCelsius: null, hoursAbove27Celsius: null, inRefrigerator: null },
      ...told.ferment,
      startedAtMs: told.ferment?.startedAtMs ?? book.workingFromMs,
    },
    closing: { ...closingOf(vessel, fill), ...withoutNulls(told.closing) },
    vessel: { ...vesselFacts(vessel), ...withoutNulls(told.vessel) },
  };
}

/** What put the liquid together last, as the rules name it. Null: nothing has been put in since the batch began. */
const EVENT_BY_CAUSE: Readonly<Record<ComposedBy, EventKind | null>> = {
  start: null,
  clean: null,
  water: 'addWater',
  juice: 'addJuice',
  sugar: 'addSugar',
  honey: 'addHoney',
  fruit: 'addFruit',
  spirit: 'addFruit',
  salt: 'addSalt',
  acid: 'addAcid',
  sulfite: 'sulfite',
  nutrient: 'addFruit',
  other: 'addFruit',
  blend: 'blend',
  seed: 'refill',
  heat: 'heat',
};

/** What a culture's jar holds as the rules tell kinds apart; a yeast or a starter is none of them. */
const KEPT_AS: Readonly<Record<CultureSort, Product | null>> = {
  mother: 'vinegar',
  tea: 'kombucha',
  grains: 'waterKefir',
  yeast: null,
  starter: null,
};

/** What is in the vessel as the rules tell kinds apart: a must before yeast, a vinegar once a mother has worked. */
function productOf({ batch, fill, keeps, told, workingFromMs, motherFromMs }: BookFacts): Product | null {
  switch (batch.ferment) {
    case 'kombucha':
      return 'kombucha';
    case 'brinedVegetables':
      return 'brinedVegetables';
    case 'cultureKeeping':
      return keeps === null ? null : KEPT_AS[keeps];
    case 'fruitVinegar':
    case 'cider':
    case 'wine':
    case 'mead':
      if (motherFromMs !== null || fill.stage === 'vinegar') {
        return isInfused(told) ? 'infusedVinegar' : 'vinegar';
      }
      if (workingFromMs === null) return 'juice';
      return batch.ferment === 'fruitVinegar' ? 'wine' : batch.ferment;
  }
}

/** Something was steeped in it, by any answer but that no vegetable is left in. */
function isInfused({ infusion }: ToldFacts): boolean {
  return Object.values(infusion ?? {}).some((answer) => answer !== null && answer !== false);
}

function holdsHoney({ batch, added, joined }: BookFacts): boolean {
  return batch.ferment === 'mead' || added.has('honey') || joined.mead || joined.added.has('honey');
}

function holdsSulfite({ added, joined }: BookFacts): boolean {
  return added.has('sulfite') || joined.added.has('sulfite');
}

/** Only a heat that was told, in degrees or as a simmer, counts as heating. */
function heated({ heating }: ToldFacts): boolean | null {
  if (heating === undefined) return null;
  return heating.reachedCelsius !== null || heating.simmered === true ? true : null;
}

/** Within this long after the starter went in, a pH on record is that of the start (policy). */
const START_MS = 86_400_000;

/** The starter as told, with the first pH read within a day of its going in. */
function starterOf({ told, readings, workingFromMs }: BookFacts): Starter | null {
  const startPh = workingFromMs === null ? null : phWithin(readings, workingFromMs, workingFromMs + START_MS);
  if (told.starter === undefined && startPh === null) return null;
  return { percent: told.starter?.percent ?? null, mature: told.starter?.mature ?? null, startPh };
}

function phWithin(readings: readonly ReadingRecord[], fromMs: number, untilMs: number): Gauged | null {
  const first = readings
    .filter(({ atMs }) => atMs >= fromMs && atMs <= untilMs)
    .flatMap(measurementsOf)
    .find(({ quantity }) => quantity === 'pH');
  return first === undefined
    ? null
    : { value: first.value, uncertainty: first.uncertainty, method: first.method };
}

/** Called pasteurised, and shown to have been by the heat and time of rule PAS-01; only called so is not known. */
function pasteurised({ heating }: ToldFacts): boolean | null {
  if (heating?.calledPasteurised !== true) return heating?.calledPasteurised ?? null;
  return reachedPasteurising(heating) ? true : null;
}

/** Below this a measured alcohol counts as spent, % vol (rule VIN-11). */
const ALCOHOL_SPENT_PERCENT = 0.5;

function alcoholSpentAt(readings: readonly ReadingRecord[]): number | null {
  const spent = readings.find((r) => {
    const percent = r.values.alcoholPercentVolume;
    return percent !== null && percent <= ALCOHOL_SPENT_PERCENT;
  });
  return spent?.atMs ?? null;
}

/** Errors assumed of alcohol and acidity before acetification when none was given (safety rules, section 3). */
const ALCOHOL_U = 0.5;
const ACIDITY_U = 0.3;

function beforeAcetification({
  readings,
  motherFromMs,
}: BookFacts): NonNullable<SafetyFacts['beforeAcetification']> | null {
  if (motherFromMs === null) return null;
  const before = readings.filter((r) => r.atMs <= motherFromMs);
  const alcohol = before.findLast((r) => r.values.alcoholPercentVolume !== null)?.values;
  const acidity = before.findLast((r) => acidityAsAcetic(r.values) !== null)?.values;
  const percent = alcohol?.alcoholPercentVolume ?? null;
  const acid = acidity === undefined ? null : acidityAsAcetic(acidity);
  if (percent === null || acid === null) return null;
  return {
    alcohol: { value: percent, uncertainty: alcohol?.detail?.alcoholUncertainty ?? ALCOHOL_U },
    acidity: { value: acid, uncertainty: acidity?.acidityUncertainty ?? ACIDITY_U },
  };
}

/** A lid may be loose or tight, so how a lidded vessel is closed has to be told. */
const CLOSING: Readonly<Record<Closure, Closing['closure']>> = {
  airlock: 'airlock',
  cloth: 'cloth',
  open: 'cloth',
  lid: null,
  cork: 'gasTight',
  bung: 'gasTight',
};

function closingOf(vessel: VesselRecord, fill: FillRecord): Closing {
  const headspaceUl = vessel.capacityUl - fill.volumeUl;
  return { closure: CLOSING[vessel.closure], headspacePercent: (100 * headspaceUl) / vessel.capacityUl };
}

const MATERIAL: Readonly<Record<Material, VesselMaterial | null>> = {
  glass: 'glass',
  stoneware: 'glazedCeramic',
  wood: 'wood',
  foodPlastic: 'plastic',
  stainless: 'stainless',
  other: null,
};

function vesselFacts(vessel: VesselRecord): VesselFacts {
  return {
    material: MATERIAL[vessel.material],
    foodGrade: vessel.material === 'foodPlastic' ? true : null,
    ...{ contactMinutes: null, glaze: null, damage: null, scratched: null, heldChemicals: null },
    ...{ light: null, heldVinegarBefore: null },
  };
}

function withoutNulls(told: Readonly<Record<string, unknown>> | undefined): Record<string, unknown> {
  return Object.fromEntries(Object.entries(told ?? {}).filter(([, value]) => value !== null));
}
