import { TOLD_GROUP_NAMES, type ToldFacts, type ToldGroup } from './told-facts.ts';

/**
 * How an answer behaves when liquid is poured. What is told of a vessel, its closing or its place stays behind when the liquid
 * leaves, and is not changed by what is poured in. What is told of a liquid goes with it; where liquids meet, an alarming
 * answer of any one holds for all, and any other only where it was told alike of each.
 */
interface Travel {
  readonly staysWithVessel?: true;
  /** Answers that speak against a use, the gravest first. */
  readonly alarming?: readonly unknown[] | 'aboveNought';
}

type Told<G extends ToldGroup> = NonNullable<ToldFacts[G]>;
type TravelOf<G extends ToldGroup> =
  Told<G> extends Record<string, unknown> ? { readonly [F in keyof Told<G>]: Travel } : Travel;

const withLiquid: Travel = {};
const stays: Travel = { staysWithVessel: true };
const alarming = (...answers: readonly unknown[]): Travel => ({ alarming: answers });
const ifSo = alarming(true);
const ifNot = alarming(false);

const TRAVELS: { readonly [G in ToldGroup]: TravelOf<G> } = {
  inspection: {
    // The older of two looks; worked out apart.
    atMs: withLiquid,
    growth: alarming('fuzzyOrColoured', 'cannotTell'),
    undecidedSinceMs: withLiquid,
    smell: alarming('putrid', 'rottenEgg', 'solventStrong', 'solventFaint'),
    solventSinceMs: withLiquid,
    flies: alarming('larvae', 'inside'),
    cover: stays,
    eels: alarming('present'),
    texture: alarming('slimySoftPinkOrFoul'),
  },
  recipient: alarming(
    ...['infant', 'pregnant', 'weakImmunity', 'liverOrKidneyIllness', 'child', 'elder', 'avoidsAlcohol'],
  ),
  rawMaterial: alarming('aceticAcid', 'scrapAndSugarWater'),
  recipe: alarming('own', 'testedSpicesAltered'),
  containsHoney: ifSo,
  sulfiteAdded: ifSo,
  calledSulfiteFree: ifSo,
  calledAlcoholFree: ifSo,
  concentrated: ifSo,
  pecticEnzymeWithPomace: ifSo,
  labelAudience: alarming('sale', 'gift'),
  labelComplete: ifNot,
  localLawChecked: ifNot,
  storage: { place: stays, closedTight: stays, testedProcess: stays },
  ferment: {
    startedAtMs: withLiquid,
    meanCelsius: withLiquid,
    hoursAbove27Celsius: { alarming: 'aboveNought' },
    inRefrigerator: stays,
  },
  salting: { saltGrams: withLiquid, vegetableGrams: withLiquid, waterGrams: withLiquid },
  submersion: { checkedAtMs: stays, covered: stays, exposedHours: stays, slimeColourOrMould: ifSo },
  infusion: {
    herbsSanitised: ifNot,
    vinegarHeated: ifNot,
    strained: ifNot,
    garlicOrVegetableLeftIn: ifSo,
    madeAtMs: withLiquid,
  },
  starter: { percent: withLiquid, mature: ifNot, startPh: withLiquid },
  secondFerment: {
    sugarGramsPerLitre: { alarming: 'aboveNought' },
    daysWarm: { alarming: 'aboveNought' },
  },
  fruit: {
    sorting: alarming('mouldy', 'bruisedTrimmed'),
    pickedFrom: alarming('ground'),
    grazedOrchard: ifSo,
    washed: ifNot,
    intended: alarming('rawJuice'),
  },
  heating: {
    reachedCelsius: withLiquid,
    simmered: ifNot,
    minutes: withLiquid,
    pot: alarming('reactive'),
    // True also counts in its favour, so it is kept only where all were called so.
    calledPasteurised: withLiquid,
    bottleGlass: stays,
  },
  sealing: {
    bottle: stays,
    makerRatingVolumes: stays,
    primingGramsPerLitre: { alarming: 'aboveNought' },
    bubbling: ifSo,
    warmedSinceFirstReading: ifSo,
    riseCelsius: stays,
    gushed: ifSo,
    carbonated: ifSo,
    headspaceAndSlow: stays,
  },
  closing: { closure: stays, headspacePercent: stays },
  vessel: {
    material: stays,
    contactMinutes: stays,
    glaze: stays,
    damage: stays,
    foodGrade: stays,
    scratched: stays,
    heldChemicals: stays,
    light: stays,
    heldVinegarBefore: stays,
  },
  cleaning: {
    bleach: stays,
    acidOrSulfite: stays,
    rinsedBetween: stays,
    sulfiteWithAcid: stays,
    place: stays,
    asthmaPresent: stays,
    lastCleanerRinsed: stays,
  },
  culture: { keptBack: ifNot, otherHolders: ifNot },
};

/** What was told of a liquid, once it stands in another vessel. */
export function toldElsewhere(told: ToldFacts): ToldFacts {
  return rebuilt((group, field) => {
    const { staysWithVessel, alarming: grave } = travelOf(group, field);
    const answer = answerOf(told, group, field);
    if (staysWithVessel) return null;
    // Flies in the room, or none seen there, are told of where the vessel stood.
    if (group === 'inspection' && field === 'flies' && !isGrave(grave, answer)) return null;
    return answer;
  });
}

/** What may be counted on of liquids poured together. `here` stood in the vessel; null where it was empty. */
export function toldOfBlend(here: ToldFacts | null, poured: readonly ToldFacts[]): ToldFacts {
  const parts = here === null ? poured : [here, ...poured];
  return rebuilt((group, field) => {
    const travel = travelOf(group, field);
    if (travel.staysWithVessel) return here === null ? null : answerOf(here, group, field);
    const answers = parts.map((part) => answerOf(part, group, field));
    if (group === 'inspection' && field === 'atMs') return oldest(answers);
    return together(travel, answers);
  });
}

function together({ alarming: grave }: Travel, answers: readonly unknown[]): unknown {
  const known: readonly unknown[] = answers.filter((answer) => answer !== null);
  if (grave === 'aboveNought') {
    const most = Math.max(...known.map(Number));
    if (most > 0) return most;
  } else {
    const gravest = grave?.find((answer) => known.includes(answer));
    if (gravest !== undefined) return gravest;
  }
  const [first = null] = answers;
  return answers.every((answer) => JSON.stringify(answer) === JSON.stringify(first)) ? first : null;
}

function oldest(answers: readonly unknown[]): unknown {
  const times = answers.filter((answer): answer is number => typeof answer === 'number');
  return times.length === 0 ? null : Math.min(...times);
}

function isGrave(grave: Travel['alarming'], answer: unknown): boolean {
  return grave !== undefined && grave !== 'aboveNought' && grave.includes(answer);
}

function travelOf(group: ToldGroup, field: string | null): Travel {
  const of = TRAVELS[group] as Travel & Readonly<Record<string, Travel>>;
  return field === null ? of : (of[field] ?? stays);
}

function answerOf(told: ToldFacts, group: ToldGroup, field: string | null): unknown {
  const of: unknown = told[group];
  if (field === null) return of ?? null;
  return (of as Record<string, unknown> | undefined)?.[field] ?? null;
}

/** Groups one of whose answers is no more than what the group is kept by: a look without a sight is no look. */
const BARE: Readonly<Partial<Record<ToldGroup, string>>> = { inspection: 'atMs' };

function rebuilt(answer: (group: ToldGroup, field: string | null) => unknown): ToldFacts {
  const told: Record<string, unknown> = {};
  for (const group of TOLD_GROUP_NAMES) {
    const fields = fieldsOf(group);
    if (fields === null) {
      const only = answer(group, null);
      if (only !== null) told[group] = only;
      continue;
    }
    const answers = fields.map((field) => [field, answer(group, field)] as const);
    if (answers.some(([field, value]) => value !== null && field !== BARE[group])) {
      told[group] = Object.fromEntries(answers);
    }
  }
  return told;
}

/** The fields of a group; null for a group that is one answer. */
function fieldsOf(group: ToldGroup): readonly string[] | null {
  const of: object = TRAVELS[group];
  const isOne = Object.keys(of).every((key) => key === 'staysWithVessel' || key === 'alarming');
  return isOne ? null : Object.keys(of);
}
