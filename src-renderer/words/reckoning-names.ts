/** What a reckoning is called, and what it is for in one line. */
export interface ReckoningNamed {
  readonly name: string;
  readonly purpose: string;
}

export const RECKONING_NAMES: Readonly<Record<string, ReckoningNamed>> = {
  correctHydrometer: {
    name: 'Correct a hydrometer',
    purpose: 'Your reading, taken warm or cold, as it would stand at 20 °C.',
  },
  convertSugar: {
    name: 'Sugar scales',
    purpose: 'Gravity, °Brix, °Plato and grams in a litre, one into the others.',
  },
  potentialAlcohol: {
    name: 'Alcohol to expect',
    purpose: 'How strong your juice can become: at most, and to plan with.',
  },
  alcoholFromGravities: {
    name: 'Alcohol from gravities',
    purpose: 'How strong it is now, from the gravity at the start and the gravity today.',
  },
  diluteToStrength: {
    name: 'Dilute a vinegar',
    purpose: 'Water that brings it down to a strength it is sure not to fall below.',
  },
  titration: {
    name: 'Titration',
    purpose: 'Acidity from the sodium hydroxide you used, with its error.',
  },
  expectedYield: {
    name: 'Harvest day',
    purpose: 'From kilograms of fruit to litres, bottles and the vessels you need.',
  },
  refractometer: {
    name: 'Refractometer',
    purpose: '°Brix corrected for warmth; and a rough guess once yeast is at work.',
  },
  sugarToAdd: {
    name: 'Sugar to add',
    purpose: 'How much sugar lifts your juice to a gravity or an alcohol.',
  },
  honeyToAdd: { name: 'Honey to add', purpose: 'How much honey lifts your must to a gravity or an alcohol.' },
  yeastDose: { name: 'Yeast', purpose: 'How much dry yeast, and how warm.' },
  nutrientDose: {
    name: 'Food for the yeast',
    purpose: 'Diammonium phosphate for a must that is short of nitrogen.',
  },
  tabarie: {
    name: 'Extract, or alcohol by boiling off',
    purpose: 'What is left when the alcohol is taken away, or how much alcohol that was.',
  },
  blendTwo: {
    name: 'Blend two',
    purpose: 'What two liquids give together: volume, alcohol, acid and sugar.',
  },
  blendToTarget: {
    name: 'Blend to a target',
    purpose: 'How much of a second liquid brings the first to an acidity or a strength.',
  },
  diluteAlcohol: { name: 'Dilute a wine', purpose: 'Water that brings a wine or a base down to a strength.' },
  convertAcid: {
    name: 'Counted as another acid',
    purpose: 'The same acidity as tartaric, malic, acetic or another.',
  },
  seedMother: {
    name: 'Seed a base',
    purpose: 'How much raw vinegar starts your base, by the acidity and alcohol it makes.',
  },
  foreseeVinegar: { name: 'Vinegar to expect', purpose: 'How sour your wine, cider or mead can become.' },
  gkCheck: {
    name: 'Is anything lost?',
    purpose: 'Alcohol and acid together, at the start and now, and what the difference tells.',
  },
  acetificationOxygen: {
    name: 'Air for the mother',
    purpose: 'The oxygen a base takes up until it is vinegar.',
  },
  phOfAcetic: {
    name: 'pH of plain acid',
    purpose: 'What the pH would be if there were acetic acid and nothing else.',
  },
  bufferCheck: {
    name: 'pH beside acidity',
    purpose: 'How much of the acid the salts of the fruit hold bound.',
  },
  molecularSulfite: {
    name: 'Sulfite that works',
    purpose: 'The part of the free sulfite that is active at your pH.',
  },
  sulfiteToAdd: {
    name: 'Sulfite to add',
    purpose: 'Potassium metabisulfite for the protection you want at your pH.',
  },
  carbonDioxideEvolved: { name: 'Gas given off', purpose: 'The carbon dioxide of a whole ferment.' },
  sealedBottle: {
    name: 'Before you seal it',
    purpose: 'Two readings, the sugar you add and the bottle: how much gas, and does it hold.',
  },
  equilibriumSalt: {
    name: 'Salt by weight',
    purpose: 'Salt as a part of vegetables, water and salt together.',
  },
  brineStrength: { name: 'Brine', purpose: 'Salt for a brine, and what it comes to in the jar.' },
  cellarAir: {
    name: 'Cellar air',
    purpose: 'What a closed room comes to in a day while something ferments.',
  },
  convertUnits: { name: 'Units', purpose: 'Volumes, weights and temperatures in other measures.' },
};
