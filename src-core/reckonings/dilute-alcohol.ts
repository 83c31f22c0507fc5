import { ok } from '../base/result.ts';
import { blend, waterToStrength } from '../must/blend.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { needed, uncertaintyOf } from './fields.ts';
import { figure, lessFigure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

const SOURCE = 'mass balance over OIML R 22';

/** Water that brings a wine or a base down to a strength, contraction included. */
export const diluteAlcohol = defineReckoning({
  id: 'diluteAlcohol',
  group: 'strength',
  carriesOut: 'addWater',
  amountAnswer: 'water',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl', { low: 1000 }),
    needed('alcoholPercentVol', 'alcohol', 'alcohol'),
    needed('targetPercentVol', 'alcohol', null, { low: 0.1 }),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
    uncertaintyOf('volume', { unit: 'L', high: 10_000 }),
  ],
  says: {
    answers: ['water', 'volumeAfter', 'contraction'],
    steps: ['waterForAlcohol', 'blendedVolume'],
    cautions: ['worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: ['targetAboveStrength'],
  },
  standsFor: { volumeLitres: 'volumeUl' },
  reckon(values) {
    const { alcoholPercentVol, targetPercentVol } = values;
    if (targetPercentVol > alcoholPercentVol) {
      return impossible('targetAboveStrength', { strength: alcoholPercentVol, target: targetPercentVol });
    }
    const volume = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark', values.volumeUncertainty);
    const strength = measured(alcoholPercentVol, 'alcoholFromGravities', values.alcoholUncertainty);
    const both = propagateEach(
      ['water', 'after'],
      (part: Readonly<Record<'volume' | 'strength', number>>) => {
        const water = waterToStrength({
          volumeLitres: part.volume,
          alcoholPercentVol: part.strength,
          targetPercentVol,
        });
        if (!water.ok) return water;
        const nothing = { acidityGramsPer100Ml: 0, sugarGramsPerLitre: 0 };
        const mixed = blend([
          { ...nothing, volumeLitres: part.volume, alcoholPercentVol: part.strength },
          { ...nothing, volumeLitres: water.value, alcoholPercentVol: 0 },
        ]);
        return mixed.ok ? ok({ water: water.value, after: mixed.value.volumeLitres }) : mixed;
      },
      { volume, strength },
    );
    if (!both.ok) return both;
    const { water, after } = both.value;
    return ok({
      answers: [
        answer('water', water, 'volume', { times: UL_PER_LITRE }),
        answer('volumeAfter', after, 'volume', { times: UL_PER_LITRE }),
        answer('contraction', volume.value + water.value - after.value, 'volume', { times: UL_PER_LITRE }),
      ],
      steps: [
        step(
          'waterForAlcohol',
          `grams of alcohol in ${figure(volume.value)} L at ${figure(alcoholPercentVol)} % vol ÷ mass fraction at ${figure(targetPercentVol)} % vol, less what is there`,
          water.value,
          'L',
          SOURCE,
        ),
        step(
          'blendedVolume',
          `${figure(volume.value)} L + ${figure(water.value)} L ${lessFigure(volume.value + water.value - after.value)} L`,
          after.value,
          'L',
          SOURCE,
        ),
      ],
      cautions: ['worksOutNotMeasured', ...errorCaution(volume, strength)],
    });
  },
});
