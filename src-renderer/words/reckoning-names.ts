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
};
