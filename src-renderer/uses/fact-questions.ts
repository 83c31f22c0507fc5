import type { ToldGroup } from '#core/ledger/told-facts.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import { RULES } from '#core/safety/rule-book.ts';
import { FACT_WORDS, type FactPath, type FactValue } from '../words/fact-words.ts';

/** How a question is answered. Every kind can also stay unanswered, which is the same as not known. */
export type FactKind =
  | { readonly type: 'yesNo' }
  | { readonly type: 'choice' }
  /** A plain number between two bounds, both included; `unit` matches what may be written after it. */
  | {
      readonly type: 'number';
      readonly low: number;
      readonly high: number;
      readonly unit: RegExp;
      readonly says: string;
    }
  /** A quantity read in the keeper's own units. A mass is kept in grams, a temperature with its instrument. */
  | { readonly type: 'quantity'; readonly quantity: Extract<QuantityKind, 'mass' | 'temperature'> }
  | { readonly type: 'moment' };

type KindFor<P extends FactPath> =
  FactValue<P> extends boolean
    ? 'yesNo'
    : FactValue<P> extends string
      ? 'choice'
      : FactValue<P> extends number
        ? 'number' | 'moment' | 'quantity'
        : 'quantity';

const yesNo = { type: 'yesNo' } as const;
const choice = { type: 'choice' } as const;
const moment = { type: 'moment' } as const;
const mass = { type: 'quantity', quantity: 'mass' } as const;
const temperature = { type: 'quantity', quantity: 'temperature' } as const;
const number = (high: number, says: string, unit: RegExp) =>
  ({ type: 'number', low: 0, high, says, unit }) as const;
const HOURS = /^h(?:ours?|rs?)?$/iu;
const DAYS = /^d(?:ays?)?$/iu;
const MINUTES = /^m(?:in(?:utes?)?)?$/iu;
const PERCENT = /^(?:%|percent|per cent)$/iu;
const GRAMS_PER_LITRE = /^g(?:rams?)?\s*(?:\/|per )\s*l(?:it(?:re|er))?$/iu;
const DEGREES = /^(?:°?\s*c|degrees?|°)$/iu;
const VOLUMES = /^(?:vol(?:ume)?s?)(?: (?:of )?co2)?$/iu;

/** Every fact with the kind of its answer, in the bounds the book keeps it in. */
export const FACT_KINDS: { readonly [P in FactPath]: Extract<FactKind, { type: KindFor<P> }> } = {
  'inspection.growth': choice,
  'inspection.undecidedSinceMs': moment,
  'inspection.smell': choice,
  'inspection.solventSinceMs': moment,
  'inspection.flies': choice,
  'inspection.cover': choice,
  'inspection.eels': choice,
  'inspection.texture': choice,
  recipient: choice,
  rawMaterial: choice,
  recipe: choice,
  containsHoney: yesNo,
  sulfiteAdded: yesNo,
  calledSulfiteFree: yesNo,
  calledAlcoholFree: yesNo,
  concentrated: yesNo,
  pecticEnzymeWithPomace: yesNo,
  labelAudience: choice,
  labelComplete: yesNo,
  localLawChecked: yesNo,
  'storage.place': choice,
  'storage.closedTight': yesNo,
  'storage.testedProcess': yesNo,
  'ferment.startedAtMs': moment,
  'ferment.meanCelsius': temperature,
  'ferment.hoursAbove27Celsius': number(10_000, 'hours', HOURS),
  'ferment.inRefrigerator': yesNo,
  'salting.saltGrams': mass,
  'salting.vegetableGrams': mass,
  'salting.waterGrams': mass,
  'submersion.checkedAtMs': moment,
  'submersion.covered': yesNo,
  'submersion.exposedHours': number(10_000, 'hours', HOURS),
  'submersion.slimeColourOrMould': yesNo,
  'infusion.herbsSanitised': yesNo,
  'infusion.vinegarHeated': yesNo,
  'infusion.strained': yesNo,
  'infusion.garlicOrVegetableLeftIn': yesNo,
  'infusion.madeAtMs': moment,
  'starter.percent': number(100, '%', PERCENT),
  'starter.mature': yesNo,
  'secondFerment.sugarGramsPerLitre': number(500, 'g/L', GRAMS_PER_LITRE),
  'secondFerment.daysWarm': number(365, 'days', DAYS),
  'fruit.sorting': choice,
  'fruit.pickedFrom': choice,
  'fruit.grazedOrchard': yesNo,
  'fruit.washed': yesNo,
  'fruit.intended': choice,
  'heating.reachedCelsius': temperature,
  'heating.simmered': yesNo,
  'heating.minutes': number(1440, 'minutes', MINUTES),
  'heating.pot': choice,
  'heating.calledPasteurised': yesNo,
  'heating.bottleGlass': choice,
  'sealing.bottle': choice,
  'sealing.makerRatingVolumes': number(12, 'volumes', VOLUMES),
  'sealing.primingGramsPerLitre': number(100, 'g/L', GRAMS_PER_LITRE),
  'sealing.bubbling': yesNo,
  'sealing.warmedSinceFirstReading': yesNo,
  'sealing.riseCelsius': number(40, '°C', DEGREES),
  'sealing.gushed': yesNo,
  'sealing.carbonated': yesNo,
  'sealing.headspaceAndSlow': yesNo,
  'closing.closure': choice,
  'closing.headspacePercent': number(100, '%', PERCENT),
  'vessel.material': choice,
  'vessel.contactMinutes': number(10_000_000, 'minutes', MINUTES),
  'vessel.glaze': choice,
  'vessel.damage': choice,
  'vessel.foodGrade': yesNo,
  'vessel.scratched': yesNo,
  'vessel.heldChemicals': yesNo,
  'vessel.light': choice,
  'vessel.heldVinegarBefore': yesNo,
  'cleaning.bleach': yesNo,
  'cleaning.acidOrSulfite': yesNo,
  'cleaning.rinsedBetween': yesNo,
  'cleaning.sulfiteWithAcid': yesNo,
  'cleaning.place': choice,
  'cleaning.asthmaPresent': yesNo,
  'cleaning.lastCleanerRinsed': yesNo,
  'culture.keptBack': yesNo,
  'culture.otherHolders': yesNo,
};

/** Every fact, in the order it is asked: by group, and within a group as written. */
export const FACT_PATHS = Object.keys(FACT_WORDS) as readonly FactPath[];

/** The kind of a question without the narrowing of its path. */
export function kindOf(path: FactPath): FactKind {
  return FACT_KINDS[path];
}

/** The group a fact is told in, and its field there; no field where the group is one answer. */
export function placeOf(path: FactPath): { readonly group: ToldGroup; readonly field: string | null } {
  const [group = '', field = null] = path.split('.');
  return { group: group as ToldGroup, field };
}

/** The facts of a group, in order. */
export function pathsOf(group: ToldGroup): readonly FactPath[] {
  return FACT_PATHS.filter((path) => placeOf(path).group === group);
}

/** What each rule may ask a keeper to tell. Rules that are not here ask for readings, or for House Rules. */
export const RULE_ASKS: Readonly<Record<string, readonly FactPath[]>> = {
  'VIN-06': ['rawMaterial'],
  'VIN-09': ['storage.place', 'storage.closedTight'],
  'VIN-10': ['inspection.eels'],
  'CAN-04': ['recipe'],
  'CAN-05': ['storage.place'],
  'CAN-06': ['storage.place', 'storage.testedProcess'],
  'INF-01': [
    'infusion.herbsSanitised',
    'infusion.vinegarHeated',
    'infusion.strained',
    'infusion.garlicOrVegetableLeftIn',
    'infusion.madeAtMs',
    'storage.place',
  ],
  'INF-02': ['storage.place'],
  'VEG-01': ['ferment.startedAtMs', 'ferment.meanCelsius'],
  'VEG-03': ['salting.saltGrams', 'salting.vegetableGrams', 'salting.waterGrams'],
  'VEG-04': ['ferment.meanCelsius', 'ferment.hoursAbove27Celsius'],
  'VEG-05': [
    'submersion.checkedAtMs',
    'submersion.covered',
    'submersion.exposedHours',
    'submersion.slimeColourOrMould',
    'ferment.startedAtMs',
  ],
  'VEG-06': ['inspection.texture'],
  'VEG-07': ['storage.place', 'storage.testedProcess'],
  'VEG-08': ['ferment.startedAtMs', 'ferment.inRefrigerator'],
  'VEG-09': ['ferment.startedAtMs', 'recipient'],
  'KOM-01': ['ferment.startedAtMs'],
  'KOM-03': ['starter.percent', 'starter.mature'],
  'KOM-04': ['calledAlcoholFree', 'storage.place'],
  'KOM-05': ['recipient'],
  'KOM-06': ['sealing.bottle', 'secondFerment.sugarGramsPerLitre', 'secondFerment.daysWarm', 'storage.place'],
  'KEF-01': ['ferment.startedAtMs'],
  'KEF-02': ['ferment.startedAtMs', 'calledAlcoholFree'],
  'CID-01': ['fruit.sorting'],
  'CID-02': ['fruit.intended', 'fruit.pickedFrom', 'fruit.washed', 'fruit.grazedOrchard'],
  'CID-03': ['recipient'],
  'CID-04': ['heating.reachedCelsius', 'heating.simmered'],
  'WIN-01': ['sulfiteAdded', 'calledSulfiteFree'],
  'WIN-03': ['concentrated', 'pecticEnzymeWithPomace'],
  'HON-01': ['containsHoney', 'recipient'],
  'LAW-02': ['labelAudience', 'labelComplete', 'localLawChecked'],
  'PRS-01': ['sealing.bubbling', 'sealing.warmedSinceFirstReading'],
  'PRS-02': ['sealing.bottle', 'sealing.makerRatingVolumes', 'sealing.primingGramsPerLitre'],
  'PRS-03': ['sealing.bottle', 'sealing.bubbling'],
  'PRS-04': ['closing.closure', 'closing.headspacePercent'],
  'PRS-05': ['sealing.riseCelsius', 'sealing.bottle', 'sealing.gushed'],
  'PRS-06': ['sealing.carbonated', 'sealing.headspaceAndSlow'],
  'MAT-01': ['vessel.material', 'vessel.glaze', 'vessel.damage'],
  'MAT-02': ['vessel.material', 'vessel.contactMinutes'],
  'MAT-03': ['vessel.material', 'vessel.foodGrade', 'vessel.scratched', 'vessel.heldChemicals'],
  'MAT-04': ['vessel.damage'],
  'MAT-05': ['vessel.light'],
  'MAT-06': ['vessel.material', 'vessel.heldVinegarBefore'],
  'CLN-01': ['cleaning.bleach', 'cleaning.acidOrSulfite', 'cleaning.rinsedBetween'],
  'CLN-02': ['cleaning.sulfiteWithAcid', 'cleaning.asthmaPresent', 'cleaning.place'],
  'CLN-04': ['cleaning.lastCleanerRinsed'],
  'MLD-01': ['inspection.growth'],
  'MLD-02': ['inspection.growth', 'ferment.startedAtMs'],
  'MLD-03': ['inspection.growth', 'inspection.undecidedSinceMs'],
  'FLY-01': ['inspection.flies', 'inspection.cover'],
  'ETH-01': ['inspection.smell', 'inspection.solventSinceMs'],
  'OFF-01': ['inspection.smell'],
  'PAS-01': ['heating.reachedCelsius', 'heating.minutes', 'heating.pot', 'heating.calledPasteurised'],
  'PAS-02': ['culture.keptBack', 'culture.otherHolders'],
  'PAS-03': ['heating.bottleGlass'],
};

/** Every fact that any rule of a use may ask for, in the order of asking; the product of the vessel is not looked at. */
export function factsOfUse(use: string): readonly FactPath[] {
  const asked = RULES.filter(({ uses }) => uses.some((one) => one === use)).flatMap(
    ({ id }) => RULE_ASKS[id] ?? [],
  );
  const wanted = new Set(asked);
  return FACT_PATHS.filter((path) => wanted.has(path));
}
