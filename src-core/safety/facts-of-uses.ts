import type { EpochMs } from '../base/ports.ts';
import type { Method } from '../quantities/uncertainty.ts';

/** What is in the vessel, as far as the rules tell kinds apart. */
export type Product =
  | 'vinegar'
  | 'wine'
  | 'cider'
  | 'mead'
  | 'juice'
  | 'kombucha'
  | 'waterKefir'
  | 'brinedVegetables'
  | 'kimchi'
  | 'refrigeratorPickle'
  | 'infusedVinegar'
  | 'infusedOil';

/** Who is to eat or drink it. */
export type Recipient =
  | 'healthyAdult'
  | 'infant'
  | 'child'
  | 'pregnant'
  | 'elder'
  | 'weakImmunity'
  | 'liverOrKidneyIllness'
  | 'avoidsAlcohol';

/** A number read off an instrument that is not a reading of a vessel's liquid. */
export interface Gauged {
  readonly value: number;
  readonly uncertainty: number | null;
  readonly method: Method | null;
}

export interface Inspection {
  readonly atMs: EpochMs;
  readonly growth: 'none' | 'flatFilm' | 'jellyDisc' | 'fuzzyOrColoured' | 'cannotTell' | null;
  /** When a growth that cannot be told was first seen. */
  readonly undecidedSinceMs: EpochMs | null;
  readonly smell: 'clean' | 'solventFaint' | 'solventStrong' | 'rottenEgg' | 'putrid' | null;
  readonly solventSinceMs: EpochMs | null;
  readonly flies: 'none' | 'inRoom' | 'inside' | 'larvae' | null;
  readonly cover: 'tightCloth' | 'cheesecloth' | 'closed' | null;
  readonly eels: 'absent' | 'present' | null;
  readonly texture: 'sound' | 'cloudyBrine' | 'slimySoftPinkOrFoul' | null;
}

export type Place = 'refrigerator' | 'freezer' | 'coolCellar' | 'warmShelf';

export interface Storage {
  readonly place: Place | null;
  readonly closedTight: boolean | null;
  /** Processed by a tested canning recipe. */
  readonly testedProcess: boolean | null;
}

export interface Ferment {
  /** When yeast was pitched, salt went in, or tea was set. */
  readonly startedAtMs: EpochMs | null;
  readonly meanCelsius: Gauged | null;
  readonly hoursAbove27Celsius: number | null;
  readonly inRefrigerator: boolean | null;
}

export interface Salting {
  readonly saltGrams: number | null;
  readonly vegetableGrams: number | null;
  readonly waterGrams: number | null;
}

export interface Submersion {
  readonly checkedAtMs: EpochMs | null;
  readonly covered: boolean | null;
  readonly exposedHours: number | null;
  readonly slimeColourOrMould: boolean | null;
}

export interface Infusion {
  readonly herbsSanitised: boolean | null;
  readonly vinegarHeated: boolean | null;
  readonly strained: boolean | null;
  readonly garlicOrVegetableLeftIn: boolean | null;
  readonly madeAtMs: EpochMs | null;
}

export interface InfusedOil {
  readonly madeAtMs: EpochMs | null;
  /** The tested 3 % citric acid method for garlic, basil, oregano or rosemary; vinegar is not a tested acidifier. */
  readonly acidified: 'testedCitric' | 'vinegar' | 'none' | null;
}

export interface Starter {
  /** Mature starter in per cent of the whole by volume. */
  readonly percent: number | null;
  readonly mature: boolean | null;
  readonly startPh: Gauged | null;
}

export interface SecondFerment {
  readonly sugarGramsPerLitre: number | null;
  readonly daysWarm: number | null;
}

export interface Fruit {
  readonly sorting: 'sound' | 'bruisedTrimmed' | 'mouldy' | null;
  readonly pickedFrom: 'tree' | 'ground' | null;
  readonly grazedOrchard: boolean | null;
  readonly washed: boolean | null;
  readonly intended: 'rawJuice' | 'heatedJuice' | 'fermentFully' | null;
}

export interface Heating {
  readonly reachedCelsius: Gauged | null;
  readonly simmered: boolean | null;
  readonly minutes: number | null;
  readonly pot: 'sound' | 'reactive' | null;
  readonly calledPasteurised: boolean | null;
  readonly bottleGlass: 'warm' | 'coldOrdinary' | 'crackedOrColdThin' | null;
}

export interface SulfiteHandling {
  readonly ventilated: boolean | null;
  readonly gloves: boolean | null;
  readonly asthmaPresent: boolean | null;
  readonly intoHotOrStrongAcid: boolean | null;
}

/** What a bottle or jar can hold; ratings in volumes of CO2 come from its maker where there is one. */
export type BottleKind = 'unrated' | 'light' | 'heavyBeer' | 'sparkling' | 'makerRated';

export interface Sealing {
  readonly bottle: BottleKind | null;
  readonly makerRatingVolumes: number | null;
  readonly primingGramsPerLitre: number | null;
  readonly bubbling: boolean | null;
  /** Sugar, juice or honey put in, or the room warmed, as the keeper remembers it beside the book. */
  readonly warmedSinceFirstReading: boolean | null;
  readonly riseCelsius: number | null;
  readonly gushed: boolean | null;
  readonly carbonated: boolean | null;
  readonly headspaceAndSlow: boolean | null;
}

export interface Closing {
  readonly closure: 'airlock' | 'cloth' | 'looseLid' | 'burpedByHand' | 'gasTight' | null;
  readonly headspacePercent: number | null;
}

export interface RoomAir {
  readonly measuredAtKneeHeight: boolean | null;
  readonly activeLitres: number | null;
  readonly pointsPerDay: number | null;
  readonly roomLitres: number | null;
  readonly closedDays: number | null;
  readonly symptoms: boolean | null;
}

export type VesselMaterial =
  | 'glass'
  | 'stainless'
  | 'plastic'
  | 'wood'
  | 'glazedCeramic'
  | 'crystal'
  | 'enamel'
  | 'copper'
  | 'brass'
  | 'iron'
  | 'aluminium'
  | 'galvanised';

export interface VesselFacts {
  readonly material: VesselMaterial | null;
  readonly contactMinutes: number | null;
  readonly glaze:
    'makerSaysLeadFree' | 'leachTestPassed' | 'swabNegative' | 'swabPositive' | 'decorative' | null;
  readonly damage: 'sound' | 'chippedOrCracked' | null;
  readonly foodGrade: boolean | null;
  readonly scratched: boolean | null;
  readonly heldChemicals: boolean | null;
  readonly light: 'dark' | 'brightRoom' | null;
  readonly heldVinegarBefore: boolean | null;
}

export interface Cleaning {
  readonly bleach: boolean | null;
  readonly acidOrSulfite: boolean | null;
  readonly rinsedBetween: boolean | null;
  readonly sulfiteWithAcid: boolean | null;
  readonly place: 'outdoors' | 'windowOpen' | 'closedRoom' | null;
  readonly asthmaPresent: boolean | null;
  readonly lastCleanerRinsed: boolean | null;
}

export interface BaseHandling {
  readonly normality: number | null;
  readonly goggles: boolean | null;
  readonly gloves: boolean | null;
  readonly labelledAndLocked: boolean | null;
  readonly byMouth: boolean | null;
}

export interface CultureFacts {
  readonly keptBack: boolean | null;
  readonly otherHolders: boolean | null;
}

export interface HomeAlcohol {
  readonly ofAge: boolean | null;
  readonly adultsInHousehold: number | null;
  readonly litresThisYear: number | null;
}

/**
 * Facts that only some uses ask for. Every one may be absent, which is the same as not known: the rule that needs it
 * then asks for it.
 */
export interface FactsOfUses {
  readonly product?: Product | null;
  readonly recipient?: Recipient | null;
  readonly rawMaterial?: 'juice' | 'scrapAndSugarWater' | 'aceticAcid' | null;
  readonly containsHoney?: boolean | null;
  readonly sulfiteAdded?: boolean | null;
  readonly calledSulfiteFree?: boolean | null;
  readonly calledAlcoholFree?: boolean | null;
  readonly kefirBase?: 'sugarWater' | 'juice' | null;
  readonly concentrated?: boolean | null;
  readonly pecticEnzymeWithPomace?: boolean | null;
  readonly heated?: boolean | null;
  readonly pitched?: boolean | null;
  readonly acetificationBegun?: boolean | null;
  /** When the alcohol was measured to be gone. */
  readonly alcoholSpentAtMs?: EpochMs | null;
  /** The number before "grain" on a label; null when the word stands alone. Absent when no label says grain. */
  readonly grainClaim?: { readonly grain: number | null } | null;
  readonly recipe?: 'testedExactly' | 'testedSpicesAltered' | 'own' | null;
  readonly labelComplete?: boolean | null;
  readonly localLawChecked?: boolean | null;
  /** What the acidity and alcohol were before acetification began, each with its U. */
  readonly beforeAcetification?: {
    readonly alcohol: { readonly value: number; readonly uncertainty: number };
    readonly acidity: { readonly value: number; readonly uncertainty: number };
  } | null;
  readonly inspection?: Inspection | null;
  readonly storage?: Storage | null;
  readonly ferment?: Ferment | null;
  readonly salting?: Salting | null;
  readonly submersion?: Submersion | null;
  readonly infusion?: Infusion | null;
  readonly infusedOil?: InfusedOil | null;
  readonly starter?: Starter | null;
  readonly secondFerment?: SecondFerment | null;
  readonly fruit?: Fruit | null;
  readonly heating?: Heating | null;
  readonly sulfiteHandling?: SulfiteHandling | null;
  readonly sealing?: Sealing | null;
  readonly closing?: Closing | null;
  readonly roomAir?: RoomAir | null;
  readonly vessel?: VesselFacts | null;
  readonly cleaning?: Cleaning | null;
  readonly baseHandling?: BaseHandling | null;
  readonly culture?: CultureFacts | null;
  readonly homeAlcohol?: HomeAlcohol | null;
}
