import type { ToldFacts, ToldGroup } from '#core/ledger/told-facts.ts';

type Told<G extends ToldGroup> = NonNullable<ToldFacts[G]>;
type PathOf<G extends ToldGroup> =
  Told<G> extends Record<string, unknown> ? `${G}.${keyof Told<G> & string}` : G;

/**
 * A fact that a keeper can tell, as the rules name it when they ask for it: `storage.place`, or `recipient` where the group is
 * one answer. When a look was taken is not asked, since that is when it is told; the pH of a starter is read, not told.
 */
export type FactPath = Exclude<
  { [G in ToldGroup]: PathOf<G> }[ToldGroup],
  'inspection.atMs' | 'starter.startPh'
>;
/** What an answer to the question of a path is kept as. */
export type FactValue<P extends FactPath> = P extends `${infer G extends ToldGroup}.${infer F}`
  ? F extends keyof Told<G>
    ? NonNullable<Told<G>[F]>
    : never
  : P extends ToldGroup
    ? Told<P>
    : never;

export interface FactWords {
  readonly question: string;
  readonly hint?: string;
  /** What each choice is called; questions that are not a choice have none. */
  readonly choices?: Readonly<Record<string, string>>;
}
type WordsFor<P extends FactPath> =
  FactValue<P> extends string
    ? Omit<FactWords, 'choices'> & { readonly choices: Readonly<Record<FactValue<P>, string>> }
    : Omit<FactWords, 'choices'>;

/** Every fact as a plain question, with plain names for what may be chosen. */
export const FACT_WORDS: { readonly [P in FactPath]: WordsFor<P> } = {
  'inspection.growth': {
    question: 'What grows on it?',
    hint: 'The look guide helps to tell: Look…',
    choices: {
      none: 'nothing',
      flatFilm: 'a flat, wet film',
      jellyDisc: 'a smooth jelly disc',
      fuzzyOrColoured: 'something fuzzy, dry or coloured',
      cannotTell: 'something, and I cannot tell',
    },
  },
  'inspection.undecidedSinceMs': { question: 'Since when has that been there?' },
  'inspection.smell': {
    question: 'How does it smell? Do not taste it to find out.',
    choices: {
      clean: 'clean',
      solventFaint: 'faintly of varnish',
      solventStrong: 'strongly of varnish',
      rottenEgg: 'of rotten eggs',
      putrid: 'rotten, cheesy or foul',
    },
  },
  'inspection.solventSinceMs': { question: 'Since when does it smell of varnish?' },
  'inspection.flies': {
    question: 'Are there fruit flies?',
    choices: {
      none: 'none',
      inRoom: 'in the room',
      inside: 'inside the vessel',
      larvae: 'maggots or pupae inside',
    },
  },
  'inspection.cover': {
    question: 'What covers it?',
    choices: { tightCloth: 'tight cloth or paper', cheesecloth: 'open cheesecloth', closed: 'it is closed' },
  },
  'inspection.eels': {
    question: 'Are there tiny wriggling threads in it, seen against the light?',
    choices: { absent: 'none', present: 'yes' },
  },
  'inspection.texture': {
    question: 'How do the vegetables and the brine look?',
    choices: {
      sound: 'firm and clean',
      cloudyBrine: 'firm, but the brine is cloudy',
      slimySoftPinkOrFoul: 'slimy, soft, pink or foul',
    },
  },
  recipient: {
    question: 'Who is it for?',
    hint: 'If it is for several people, choose the one most at risk.',
    choices: {
      healthyAdult: 'a healthy adult',
      infant: 'a baby under one year',
      child: 'a child',
      pregnant: 'someone pregnant',
      elder: 'an older person',
      weakImmunity: 'someone with weak immunity',
      liverOrKidneyIllness: 'someone with an ill liver or kidney',
      avoidsAlcohol: 'someone who avoids alcohol',
    },
  },
  rawMaterial: {
    question: 'What was it made from?',
    choices: {
      juice: 'juice of the fruit, all of it',
      scrapAndSugarWater: 'scraps with sugar and water',
      aceticAcid: 'acetic acid cut with water',
    },
  },
  recipe: {
    question: 'Which recipe is it for?',
    choices: {
      testedExactly: 'a tested one, followed exactly',
      testedSpicesAltered: 'a tested one, with other spices',
      own: 'one of my own',
    },
  },
  containsHoney: { question: 'Is there honey in it?' },
  sulfiteAdded: { question: 'Was sulfite put in at any time?' },
  calledSulfiteFree: { question: 'Will its label call it free of sulfite?' },
  calledAlcoholFree: { question: 'Will it be called free of alcohol?' },
  concentrated: { question: 'Was it distilled, or frozen to make it stronger?' },
  pecticEnzymeWithPomace: { question: 'Did it ferment on the pulp with pectic enzyme?' },
  labelAudience: {
    question: 'Who gets it with this label?',
    choices: {
      own: 'only our own house',
      gift: 'someone, as a gift',
      sale: 'someone who pays for it',
    },
  },
  labelComplete: {
    question: 'Is its label complete?',
    hint: 'Name, strength where it has one, date, what is in it, and every caution shown here.',
  },
  localLawChecked: { question: 'Did you check the local law on selling it?' },
  'storage.place': {
    question: 'Where is it kept, or will it be kept?',
    choices: {
      refrigerator: 'in the refrigerator',
      freezer: 'in the freezer',
      coolCellar: 'in a cool cellar, up to 15 °C',
      warmShelf: 'on a shelf at room warmth',
    },
  },
  'storage.closedTight': { question: 'Is it closed tight there?' },
  'storage.testedProcess': { question: 'Was it heat-processed by a tested canning recipe?' },
  'ferment.startedAtMs': {
    question: 'When did it begin to work?',
    hint: 'When yeast, salt or starter went in. Left empty, the book’s own date counts.',
  },
  'ferment.meanCelsius': { question: 'How warm has it stood, on the whole?' },
  'ferment.hoursAbove27Celsius': {
    question: 'How long was it warmer than 27 °C?',
    hint: 'hours; 0 if it never was',
  },
  'ferment.inRefrigerator': { question: 'Does it ferment in the refrigerator?' },
  'salting.saltGrams': { question: 'How much salt went in?' },
  'salting.vegetableGrams': { question: 'How much do the vegetables weigh?' },
  'salting.waterGrams': {
    question: 'How much water went in?',
    hint: 'by weight; a litre is 1 kg, and none is 0 g',
  },
  'submersion.checkedAtMs': { question: 'When did you last look whether all is under the brine?' },
  'submersion.covered': { question: 'Was everything under the brine then?' },
  'submersion.exposedHours': { question: 'For how long did something stand out?', hint: 'hours' },
  'submersion.slimeColourOrMould': { question: 'Is what stood out slimy, discoloured or mouldy?' },
  'infusion.herbsSanitised': { question: 'Were the herbs or fruit dipped clean before they went in?' },
  'infusion.vinegarHeated': { question: 'Was the vinegar hot when it was poured over them?' },
  'infusion.strained': { question: 'Is it strained by now, with nothing left floating in it?' },
  'infusion.garlicOrVegetableLeftIn': { question: 'Is garlic, chilli or another vegetable left in it?' },
  'infusion.madeAtMs': { question: 'When were they put in?' },
  'starter.percent': {
    question: 'How much mature starter is in it?',
    hint: 'per cent of the whole, by volume',
  },
  'starter.mature': { question: 'Was the starter mature and sour?' },
  'secondFerment.sugarGramsPerLitre': {
    question: 'How much sugar went in for the second ferment?',
    hint: 'grams in a litre; juice counts with its sugar',
  },
  'secondFerment.daysWarm': { question: 'How many days do the closed bottles stand warm?' },
  'fruit.sorting': {
    question: 'How was the fruit sorted?',
    choices: {
      sound: 'sound fruit only',
      bruisedTrimmed: 'bruised but firm, spots cut out wide',
      mouldy: 'some was rotten or mouldy',
    },
  },
  'fruit.pickedFrom': {
    question: 'Was it picked from the tree or off the ground?',
    choices: { tree: 'from the tree', ground: 'off the ground, some or all' },
  },
  'fruit.grazedOrchard': { question: 'Do animals graze under the trees?' },
  'fruit.washed': { question: 'Was the fruit washed?' },
  'fruit.intended': {
    question: 'What is the juice for?',
    choices: {
      rawJuice: 'to drink raw',
      heatedJuice: 'to drink after heating',
      fermentFully: 'to ferment out, to alcohol or vinegar',
    },
  },
  'heating.reachedCelsius': { question: 'How hot did all of it become, by a thermometer?' },
  'heating.simmered': { question: 'Without a thermometer: did the whole pot simmer?' },
  'heating.minutes': { question: 'For how many minutes was it held there?' },
  'heating.pot': {
    question: 'What was the pot?',
    choices: {
      sound: 'stainless steel, glass or sound enamel',
      reactive: 'aluminium, copper, brass, iron or zinc',
    },
  },
  'heating.calledPasteurised': { question: 'Will it be called pasteurised?' },
  'heating.bottleGlass': {
    question: 'If it was filled hot: what were the bottles like?',
    choices: {
      warm: 'warmed first',
      coldOrdinary: 'cold, of ordinary glass',
      crackedOrColdThin: 'cracked, or cold and thin',
    },
  },
  'sealing.bottle': {
    question: 'Which bottles?',
    choices: {
      unrated: 'jars, jugs, wine or clip-top bottles: not made for pressure',
      light: 'light bottles, for 3 volumes',
      heavyBeer: 'heavy returnable beer bottles, for 4 volumes',
      sparkling: 'sparkling-wine bottles, for 6 volumes',
      makerRated: 'bottles whose maker names a rating',
    },
  },
  'sealing.makerRatingVolumes': { question: 'What rating does the maker name?', hint: 'volumes of CO2' },
  'sealing.primingGramsPerLitre': {
    question: 'How much sugar goes in to make it sparkle?',
    hint: 'grams in a litre; 0 for a still drink',
  },
  'sealing.bubbling': { question: 'Does it still bubble or hiss?' },
  'sealing.warmedSinceFirstReading': {
    question: 'Was sugar, juice or honey put in, or did it get warmer, since the first of the two readings?',
  },
  'sealing.riseCelsius': { question: 'How many degrees warmer will the bottles stand?', hint: 'in °C' },
  'sealing.gushed': { question: 'Has a bottle gushed or burst?' },
  'sealing.carbonated': { question: 'Is it fizzy?' },
  'sealing.headspaceAndSlow': { question: 'Is there headspace, and will it be heated slowly under a lid?' },
  'closing.closure': {
    question: 'How does it close?',
    choices: {
      airlock: 'a water lock',
      cloth: 'cloth, or open',
      looseLid: 'a lid that lies loose',
      burpedByHand: 'a tight lid, let off by hand',
      gasTight: 'gas-tight',
    },
  },
  'closing.headspacePercent': {
    question: 'How much of the vessel is left empty for foam?',
    hint: 'per cent; left empty, the book works it out',
  },
  'vessel.material': {
    question: 'What is the vessel made of?',
    choices: {
      glass: 'glass',
      stainless: 'stainless steel',
      plastic: 'plastic',
      wood: 'wood',
      glazedCeramic: 'glazed ceramic or stoneware',
      crystal: 'crystal glass',
      enamel: 'enamel',
      copper: 'copper',
      brass: 'brass',
      iron: 'iron',
      aluminium: 'aluminium',
      galvanised: 'galvanised metal',
    },
  },
  'vessel.contactMinutes': { question: 'For how many minutes does it touch the metal?' },
  'vessel.glaze': {
    question: 'What is known of its glaze?',
    choices: {
      makerSaysLeadFree: 'its maker says lead-free and fit for acid',
      leachTestPassed: 'a laboratory leach test was passed',
      swabNegative: 'a swab found no lead',
      swabPositive: 'a swab found lead',
      decorative: 'it is decorative, antique or painted',
    },
  },
  'vessel.damage': {
    question: 'Is it whole inside?',
    choices: { sound: 'whole', chippedOrCracked: 'chipped, crazed or cracked' },
  },
  'vessel.foodGrade': { question: 'Does the plastic bear a food-grade mark?' },
  'vessel.scratched': { question: 'Is it scratched inside?' },
  'vessel.heldChemicals': { question: 'Did it ever hold chemicals?' },
  'vessel.light': {
    question: 'Does it stand in the light?',
    choices: { dark: 'in the dark or a cupboard', brightRoom: 'in a bright room' },
  },
  'vessel.heldVinegarBefore': { question: 'Has it held vinegar before?' },
  'cleaning.bleach': { question: 'Was bleach used to clean it?' },
  'cleaning.acidOrSulfite': { question: 'Was vinegar, another acid or sulfite used on it too?' },
  'cleaning.rinsedBetween': { question: 'Was it rinsed well between the bleach and the other?' },
  'cleaning.sulfiteWithAcid': { question: 'Were sulfite and an acid mixed to clean it?' },
  'cleaning.place': {
    question: 'Where was it cleaned?',
    choices: { outdoors: 'outdoors', windowOpen: 'by an open window', closedRoom: 'in a closed room' },
  },
  'cleaning.asthmaPresent': { question: 'Was anyone there who has asthma?' },
  'cleaning.lastCleanerRinsed': { question: 'Was the last cleaner rinsed out, until nothing smelled of it?' },
  'culture.keptBack': { question: 'Is some living mother kept back, unheated?' },
  'culture.otherHolders': { question: 'Does someone else hold this line too?' },
};

export function isFactPath(quantity: string): quantity is FactPath {
  return Object.hasOwn(FACT_WORDS, quantity);
}

/** The words of a question, whatever its kind. */
export function factWords(path: FactPath): FactWords {
  return FACT_WORDS[path];
}

/** An answer that was told, in words: `yes`, `in the refrigerator`. Null for a number, which needs its unit. */
export function sayAnswer(path: FactPath, value: string | boolean): string | null {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return factWords(path).choices?.[value] ?? null;
}
