import { mapOk, ok } from '../base/result.ts';
import { ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from '../must/alcohol.ts';
import {
  carbonDioxideFromAlcohol,
  GRAMS_PER_VOLUME,
  volumesFromGramsPerLitre,
} from '../must/carbon-dioxide.ts';
import { THEORETICAL_YIELD } from '../must/stoichiometry.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { needed, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

/** The carbon dioxide that a ferment gives off on its way to an alcohol. */
export const carbonDioxideEvolved = defineReckoning({
  id: 'carbonDioxideEvolved',
  group: 'gas',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl'),
    needed('alcoholMadePercentVol', 'alcohol', null, { high: 20 }),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
  ],
  says: {
    answers: ['gasGrams', 'gasLitres', 'gasLitresPerLitre'],
    steps: ['gasGramsPerLitre', 'gasGrams', 'gasLitres'],
    cautions: ['ventilateFirst', 'candleIsNoTest', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: [],
  },
  standsFor: { alcoholPercentVol: 'alcoholMadePercentVol' },
  reckon(values) {
    const volume = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark');
    const alcohol = measured(values.alcoholMadePercentVol, 'alcoholFromGravities', values.alcoholUncertainty);
    const here = carbonDioxideFromAlcohol(alcohol.value);
    if (!here.ok) return here;
    const found = propagateEach(
      ['perLitre', 'grams'],
      (part: Readonly<Record<'volume' | 'alcohol', number>>) =>
        mapOk(carbonDioxideFromAlcohol(part.alcohol), (perLitre) => ({
          perLitre,
          grams: perLitre * part.volume,
        })),
      { volume, alcohol },
    );
    if (!found.ok) return found;
    const { grams, perLitre } = found.value;
    const litresPerGram = volumesFromGramsPerLitre(1);
    return ok({
      answers: [
        answer('gasGrams', grams, 'g', { limit: 'upper' }),
        answer('gasLitres', grams, 'L', { times: litresPerGram, limit: 'upper' }),
        answer('gasLitresPerLitre', perLitre, 'L', { times: litresPerGram, limit: 'upper' }),
      ],
      steps: [
        step(
          'gasGramsPerLitre',
          `${figure(alcohol.value)} % vol × ${figure(ETHANOL_GRAMS_PER_LITRE_PER_PERCENT)} g/L × ${figure(THEORETICAL_YIELD.carbonDioxideFromEthanol, 4)}`,
          here.value,
          'g/L',
          'stoichiometry, IUPAC 2021: one CO₂ for each ethanol',
        ),
        step(
          'gasGrams',
          `${figure(here.value)} × ${figure(volume.value)} L`,
          grams.value,
          'g',
          'mass balance',
        ),
        step(
          'gasLitres',
          `${figure(grams.value)} ÷ ${GRAMS_PER_VOLUME} g/L`,
          grams.value * litresPerGram,
          'L',
          'real gas at 0 °C and 1 atm, from memory',
        ),
      ],
      cautions: ['ventilateFirst', 'candleIsNoTest', 'worksOutNotMeasured', ...errorCaution(volume, alcohol)],
    });
  },
});
