import { mapOk, ok } from '../base/result.ts';
import { oxygenGramsPerLitre } from '../acid/acetification.ts';
import { ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from '../must/alcohol.ts';
import { MOLAR_MASS, THEORETICAL_YIELD } from '../must/stoichiometry.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { needed, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

/** Litres of an ideal gas in a mole at 0 °C and 101.325 kPa. Source: CODATA molar volume. */
const LITRES_PER_MOLE = 22.414;
/** Share of oxygen in dry air by volume. Source: US Standard Atmosphere 1976. */
const OXYGEN_IN_AIR = 0.2095;

/** The oxygen, and the air it is in, that a base takes up until it is vinegar. */
export const acetificationOxygen = defineReckoning({
  id: 'acetificationOxygen',
  group: 'acid',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl'),
    needed('alcoholPercentVol', 'alcohol', 'alcohol', { high: 20 }),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
    uncertaintyOf('volume', { unit: 'L', high: 10_000 }),
  ],
  says: {
    answers: ['oxygenGrams', 'oxygenLitres', 'airLitres'],
    steps: ['oxygenPerLitre', 'oxygenGrams', 'oxygenLitres', 'airLitres'],
    cautions: ['clothNotLid', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: [],
  },
  reckon(values) {
    const volume = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark', values.volumeUncertainty);
    const alcohol = measured(values.alcoholPercentVol, 'alcoholFromGravities', values.alcoholUncertainty);
    const perLitre = oxygenGramsPerLitre(alcohol.value);
    if (!perLitre.ok) return perLitre;
    const found = propagateEach(
      ['grams'],
      (part: Readonly<Record<'volume' | 'alcohol', number>>) =>
        mapOk(oxygenGramsPerLitre(part.alcohol), (grams) => ({ grams: grams * part.volume })),
      { volume, alcohol },
    );
    if (!found.ok) return found;
    const { grams } = found.value;
    const litresPerGram = LITRES_PER_MOLE / MOLAR_MASS.oxygen;
    const litres = grams.value * litresPerGram;
    return ok({
      answers: [
        answer('oxygenGrams', grams, 'g'),
        answer('oxygenLitres', grams, 'L', { times: litresPerGram }),
        answer('airLitres', grams, 'L', { times: litresPerGram / OXYGEN_IN_AIR }),
      ],
      steps: [
        step(
          'oxygenPerLitre',
          `${figure(alcohol.value)} % vol × ${figure(ETHANOL_GRAMS_PER_LITRE_PER_PERCENT)} × ${figure(THEORETICAL_YIELD.oxygenPerEthanol)}`,
          perLitre.value,
          'g/L',
          'stoichiometry, IUPAC 2021: one O₂ for each ethanol',
        ),
        step(
          'oxygenGrams',
          `${figure(perLitre.value)} × ${figure(volume.value)} L`,
          grams.value,
          'g',
          'mass balance',
        ),
        step(
          'oxygenLitres',
          `${figure(grams.value)} ÷ ${figure(MOLAR_MASS.oxygen)} × ${LITRES_PER_MOLE}`,
          litres,
          'L',
          'ideal gas at 0 °C and 1 atm',
        ),
        step(
          'airLitres',
          `${figure(litres)} ÷ ${OXYGEN_IN_AIR}`,
          litres / OXYGEN_IN_AIR,
          'L',
          'US Standard Atmosphere 1976, from memory',
        ),
      ],
      cautions: ['clothNotLid', 'worksOutNotMeasured', ...errorCaution(volume, alcohol)],
    });
  },
});
