import { ok } from '../base/result.ts';
import { dryYeastGrams, YEAST_ADVICE } from '../must/yeast.ts';
import { answer, step, UG_PER_GRAM, UL_PER_LITRE } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { needed } from './fields.ts';
import { figure } from './figure.ts';

/** Dry yeast for a must, as a range. */
export const yeastDose = defineReckoning({
  id: 'yeastDose',
  group: 'must',
  fields: [needed('volumeUl', 'volume', 'volumeUl')],
  says: {
    answers: ['dryYeast', 'rehydrateCelsius', 'fermentCelsius'],
    steps: ['dryYeast', 'rehydrateCelsius', 'fermentCelsius'],
    cautions: ['adviceOnly'],
    reasons: [],
  },
  standsFor: { volumeLitres: 'volumeUl' },
  reckon({ volumeUl }) {
    const litres = volumeUl / UL_PER_LITRE;
    const grams = dryYeastGrams(litres);
    if (!grams.ok) return grams;
    const { dryYeastDose, rehydrationCelsius, fermentationCelsius } = YEAST_ADVICE;
    return ok({
      answers: [
        answer('dryYeast', middle(grams.value), 'mass', { times: UG_PER_GRAM, range: grams.value }),
        answer('rehydrateCelsius', middle(rehydrationCelsius), 'temperature', { range: rehydrationCelsius }),
        answer('fermentCelsius', middle(fermentationCelsius), 'temperature', { range: fermentationCelsius }),
      ],
      steps: [
        step(
          'dryYeast',
          `${figure(litres)} L × ${dryYeastDose.low} to ${dryYeastDose.high} g ÷ 100 L`,
          middle(grams.value),
          'g',
          dryYeastDose.source,
        ),
        step(
          'rehydrateCelsius',
          `${rehydrationCelsius.low} to ${rehydrationCelsius.high} °C`,
          middle(rehydrationCelsius),
          '°C',
          rehydrationCelsius.source,
        ),
        step(
          'fermentCelsius',
          `${fermentationCelsius.low} to ${fermentationCelsius.high} °C`,
          middle(fermentationCelsius),
          '°C',
          fermentationCelsius.source,
        ),
      ],
      cautions: ['adviceOnly'],
    });
  },
});

function middle({ low, high }: { readonly low: number; readonly high: number }): number {
  return (low + high) / 2;
}
