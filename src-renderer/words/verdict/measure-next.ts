/** What to measure and how, for what an instrument tells. */
const MEASURED: Readonly<Record<string, string>> = {
  acidity: 'Measure acidity by titration, noting the acid and the method.',
  pH: 'Measure pH with a meter set to two buffers.',
  gravity: 'Measure gravity with the hydrometer, and the temperature.',
  alcohol: 'Measure alcohol, by a laboratory or by boiling point; gravities alone only work it out.',
  temperature: 'Measure the temperature.',
  salt: 'Measure the salt, by weight.',
  sulfite: 'Measure total sulfite with a kit.',
  carbonDioxide: 'Measure carbon dioxide in the room, at the height of the knee, and from the door.',
  'heating.reachedCelsius':
    'Hold a thermometer in the middle of the pot while you heat, and note the highest.',
  'ferment.meanCelsius': 'Hang a thermometer beside the jar, read it morning and evening, and note the mean.',
  'starter.startPh': 'Measure the pH of tea and starter together, with a meter, when you set it.',
};

/** What to add to a measurement, by what was wrong with the last. */
const BESIDES: Readonly<Record<string, string>> = {
  stale_event: 'The last one was taken before something was put in.',
  stale_age: 'The last one is too old.',
  straddles: 'Use a finer method than last time.',
  readings_disagree: 'Take it twice, with care.',
  wrong_side: 'Let it work longer first.',
  basis: 'Or find out which acid the last one was counted as.',
  method: 'Note how it is measured.',
  uncalibrated: 'Check or set the instrument first.',
  implausible: 'Mind the unit and the decimal mark.',
  not_equilibrium: 'Blend drained vegetables and test those, not the brine.',
  calculated_only: 'The last one was worked out.',
  guessed: 'The last one was a guess.',
  not_yet: 'It needs more time first.',
};

/** Where the reason tells more than the quantity: one sentence for the two together. */
const BY_REASON: Readonly<Record<string, string>> = {
  'acidity.wrong_side':
    'Measure acidity by titration, noting the acid and the method. Wait until the mother has worked longer.',
  'alcohol.wrong_side': 'Measure alcohol again once the mother has worked longer.',
  'acidity.method':
    'Measure acidity by titration, and write down the strength of the sodium hydroxide, the end point and the sample.',
  'acidity.uncalibrated':
    'Check the sodium hydroxide against a weighed standard, or open a new bottle that is in date. Then measure acidity by titration.',
  'pH.wrong_side': 'Measure pH again with a meter set to two buffers, if you doubt the reading.',
  'pH.not_yet': 'Measure pH every day with a meter set to two buffers.',
  'pH.method': 'Measure pH with a meter set to two buffers. Paper is too coarse here.',
  'gravity.method': 'Measure gravity with the hydrometer, and note the temperature of the sample.',
  'gravity.stale_event':
    'Measure gravity with the hydrometer, and the temperature. The last one was taken before something was put in; now it takes two again, 48 hours apart.',
  'gravity.missing':
    'Measure gravity with the hydrometer, and the temperature; twice, at least 48 hours apart, to show that it stands still.',
  'normality.method':
    'Read the strength on the sodium hydroxide’s bottle, 0.1 N or 0.2 N, and write it down.',
  'normality.uncalibrated':
    'Check the sodium hydroxide against a weighed standard, or open a new bottle that is in date. Then titrate again.',
  'heating.reachedCelsius.not_yet': 'Heat it on, with a thermometer in the middle, until it is hot enough.',
  'heating.reachedCelsius.straddles':
    'Heat it a little further, or check the thermometer in boiling water, and note the highest again.',
  'heating.minutes.not_yet': 'Keep it at that heat for 10 minutes by the clock.',
  'inspection.growth.not_yet':
    'Look again when 48 hours have passed since it was first seen. Do not taste it.',
  'inspection.smell.not_yet': 'Give it air, and smell it again in a week.',
  'inspection.stale_age': 'Look at the surface, under the cover and against the light, and smell it again.',
  'submersion.checkedAtMs.stale_age': 'Look at the brine today: is everything under it?',
  'salting.implausible': 'Weigh salt, vegetables and water again, and note all three in grams.',
  'salting.straddles': 'Weigh salt, vegetables and water again on a finer scale, and note all three.',
};

/** What to find out and how, for what no instrument tells. */
const FOUND_OUT: Readonly<Record<string, string>> = {
  boughtLabelPercent: 'Read the strength on the bottle’s label and write it down.',
  addedWater: 'Find out whether water was added at home.',
  jurisdiction: 'Choose your country in House Rules.',
  product: 'Say what stands in the vessel.',
  rawMaterial: 'Note what it was made from: juice, scraps in sugared water, or acetic acid.',
  grain: 'Read the number before “grain” on the label; ten grain are 1\u00A0%.',
  recipe: 'Note whether the recipe is a tested one, followed exactly or with other spices, or your own.',
  recipient: 'Say who it is for.',
  labelAudience: 'Say whether it stays with you, is given away or is sold.',
  concentrated: 'Say whether it was only fermented, or also frozen or boiled down.',
  containsHoney: 'Find out whether honey went into it.',
  alcoholSpentAtMs: 'Find the day on which no alcohol was left, by its reading.',
  normality: 'Find out how strong the sodium hydroxide is and when it was last checked.',
  endPoint:
    'Titrate again to pH 8.2 on a meter, or, in a pale sample, to the change of colour, and note which.',
  degassed: 'Shake or boil the gas out of the sample, then titrate again and note it.',
  inspection: 'Look at it: the surface, under the cover and against the light. Smell it; do not taste.',
  'inspection.growth':
    'Look at the surface: is it bare, is there a flat wet film or disc, or fuzz and colour?',
  'inspection.undecidedSinceMs': 'Note when the growth was first seen.',
  'inspection.smell': 'Smell it, without tasting: clean, varnish, bad eggs or rot?',
  'inspection.solventSinceMs': 'Note since when it smells of varnish.',
  'inspection.flies': 'Look under the cover for flies and maggots.',
  'inspection.cover': 'Say what covers it: a tight cloth, cheesecloth or a lid.',
  'inspection.eels': 'Hold a glass of it against a lamp and look for fine wriggling threads.',
  'inspection.texture': 'Look at the vegetables and press one: firm and clean, or soft, slimy, pink or foul?',
  'storage.place': 'Note where it is kept: refrigerator, freezer, cool cellar or warm shelf.',
  'ferment.hoursAbove27Celsius': 'Say for how many hours in all the jar stood over 27\u00A0°C; none is 0.',
  'ferment.startedAtMs': 'Note the day and hour on which it was set: the salt, the yeast or the tea.',
  salting: 'Weigh salt, vegetables and water, and note all three in grams.',
  'salting.saltGrams': 'Weigh the salt, or find its weight in your notes.',
  'salting.vegetableGrams': 'Weigh the vegetables, or find their weight in your notes.',
  'salting.waterGrams': 'Weigh the water; note 0 where none went in.',
  'submersion.checkedAtMs': 'Look at the brine today and note it.',
  'submersion.covered': 'Look whether everything lies under the brine.',
  'submersion.exposedHours': 'Work out for how many hours vegetables have stood out of the brine.',
  'submersion.slimeColourOrMould': 'Look at what stood out of the brine: slime, colour, mould?',
  'infusion.herbsSanitised': 'Note whether herbs and fruit were washed and dipped before they went in.',
  'infusion.vinegarHeated': 'Note whether the vinegar was heated before it met the herbs.',
  'infusion.strained': 'Look whether everything is strained out, and strain it if not.',
  'infusion.garlicOrVegetableLeftIn': 'Look whether garlic or vegetables are left in it.',
  'infusion.madeAtMs': 'Note the day on which the herbs went in.',
  'infusedOil.acidified':
    'Note whether what is in the oil was soured first, and by the tested method or not.',
  'infusedOil.madeAtMs':
    'Note the day on which the garlic or herbs went into the oil. If you cannot, throw it out.',
  'starter.percent': 'Measure starter and tea, and note how much of the whole is starter.',
  'starter.mature': 'Find out how old the starter is: only sour tea of a finished brew counts.',
  'secondFerment.sugarGramsPerLitre': 'Work out how many grams of sugar went into each litre for the bottle.',
  'secondFerment.daysWarm': 'Count the days on which the closed bottles stood warm.',
  'sealing.bottle':
    'Look at the bottle: light, heavy beer, sparkling wine, or not for pressure; note its maker’s rating if it has one.',
  'sealing.primingGramsPerLitre': 'Note how many grams of sugar go into each litre for the fizz; 0 for none.',
  'sealing.bubbling': 'Watch the airlock and the surface for a quarter of an hour: does it bubble?',
  'sealing.warmedSinceFirstReading':
    'Find out whether sugar or juice went in, or the room grew warmer, since the first gravity.',
  'sealing.riseCelsius': 'Measure both places: how many degrees warmer will the bottles stand?',
  'sealing.gushed': 'Find out whether one of the bottles gushed when it was opened.',
  'sealing.carbonated': 'Open one bottle: does it hiss or foam?',
  'closing.closure': 'Look how the vessel is closed: airlock, cloth, loose lid, or tight.',
  'closing.headspacePercent': 'Measure how much of the vessel is free above the liquid.',
  'fruit.sorting': 'Sort the fruit, or ask who pressed it: was anything rotten or mouldy?',
  'fruit.intended': 'Say what the juice is for: drunk raw, heated, or fermented right through.',
  'fruit.pickedFrom': 'Find out whether the fruit was picked from the tree or up from the ground.',
  'fruit.washed': 'Find out whether the fruit was washed.',
  'fruit.grazedOrchard': 'Find out whether cattle, sheep or deer graze where it grew.',
  'heating.pot': 'Look what the pot is made of.',
  'heating.minutes': 'Time how long it stays that hot, by the clock.',
  'heating.bottleGlass': 'Feel the bottles before you fill them: warm, or cold?',
  'sulfiteHandling.asthmaPresent': 'Ask everyone near whether they have asthma or react to sulfite.',
  'sulfiteHandling.intoHotOrStrongAcid': 'Say what the sulfite goes into: is it hot, or strongly sour?',
  'sulfiteHandling.ventilated': 'Open a window, or go outdoors, and note it.',
  'sulfiteHandling.gloves': 'Put gloves on before you open the sulfite, and note it.',
  'homeAlcohol.ofAge': 'Say whether you are of the age that your country sets for alcohol.',
  'homeAlcohol.adultsInHousehold': 'Count the adults in the household.',
  'homeAlcohol.litresThisYear': 'Add up the litres made since the first of January.',
  'roomAir.activeLitres': 'Add up the litres that are fermenting in the room.',
  'roomAir.pointsPerDay': 'Find by how many thousandths the liveliest gravity falls in a day.',
  'roomAir.roomLitres': 'Measure the room: length × width × height in metres, × 1,000, gives its litres.',
  'roomAir.closedDays': 'Say how many days the room has been shut.',
  'roomAir.symptoms': 'Ask everyone who was inside: headache, racing heart, shaking?',
  'roomAir.measuredAtKneeHeight':
    'Hold the detector at the height of the knee and read it again from the door.',
  'vessel.material': 'Find out what the vessel is made of.',
  'vessel.glaze':
    'Find the maker’s word on lead in the glaze, or have a leach test made. Until then use glass.',
  'vessel.damage': 'Run a finger round the inside and the rim, against the light: chips, cracks, crazing?',
  'vessel.foodGrade':
    'Look on the bottom of the plastic for the mark of a glass and fork, or the maker’s word.',
  'vessel.heldChemicals': 'Find out what the plastic held before. If you cannot, take another vessel.',
  'vessel.heldVinegarBefore': 'Find out whether the vessel ever held vinegar.',
  'cleaning.bleach': 'Read the label of the cleaner: does it name chlorine or hypochlorite?',
  'cleaning.acidOrSulfite': 'Find out what was in the vessel, the sink and the cloth before.',
  'cleaning.sulfiteWithAcid': 'Say whether the rinse is sulfite mixed with acid.',
  'cleaning.asthmaPresent': 'Ask everyone near whether they have asthma.',
  'cleaning.place': 'Say where you mix it: outdoors, by an open window, or in a closed room.',
  'cleaning.lastCleanerRinsed': 'Rinse until nothing smells of the cleaner, and note it.',
  'baseHandling.normality': 'Read how strong the sodium hydroxide is, in N or mol/L, on its bottle.',
  'baseHandling.goggles': 'Put goggles on, and note it.',
  'baseHandling.gloves': 'Put gloves on before you open the sodium hydroxide, and note it.',
  'baseHandling.labelledAndLocked': 'Label the bottle and lock it away from children, and note it.',
  'baseHandling.byMouth': 'Use a syringe or a bulb, never the mouth, and note it.',
  'culture.keptBack': 'Set some living vinegar and mother aside before you heat, and note it.',
  'culture.otherHolders': 'Ask whether anyone else keeps a piece of this mother.',
};

/** Every fact that there are words to measure or find out. */
export const ASKABLE_FACTS: readonly string[] = [...Object.keys(MEASURED), ...Object.keys(FOUND_OUT)];

/** What to measure or find out next, and how, in one or two sentences. */
export function sayMeasureNext(next: { readonly quantity: string; readonly why: string }): string {
  const { quantity, why } = next;
  const own = BY_REASON[`${quantity}.${why}`] ?? FOUND_OUT[quantity];
  if (own !== undefined) return own;
  const measured = MEASURED[quantity];
  if (measured === undefined) return 'The rule asks for something that this version has no words for.';
  const besides = BESIDES[why];
  return besides === undefined ? measured : `${measured} ${besides}`;
}
