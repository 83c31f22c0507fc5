import { ok } from '../base/result.ts';
import { blend, type BlendPart } from '../must/blend.ts';
import { exact, errorCaution, measured, propagateEach, type MeasuredValue } from './measured.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { needed, numberUsually, uncertaintyOf, usually } from './fields.ts';
import { figure, lessFigure } from './figure.ts';

const SOURCE = 'mass balance over OIML R 22';
const SUGAR = { unit: 'g/L', low: 0, high: 770 } as const;
/** Above this a part is a spirit. */
const SPIRIT_PERCENT_VOL = 20;

/** What two liquids give together, by mass, so that alcohol and water shrink as they do in the vessel. */
export const blendTwo = defineReckoning({
  id: 'blendTwo',
  group: 'strength',
  fields: [
    needed('firstVolumeUl', 'volume', 'volumeUl'),
    usually('firstPercentVol', 'alcohol', 0, 'alcohol'),
    usually('firstGramsPer100Ml', 'acidity', 0, 'acidity'),
    numberUsually('firstSugarGramsPerLitre', 0, SUGAR),
    needed('secondVolumeUl', 'volume'),
    usually('secondPercentVol', 'alcohol', 0),
    usually('secondGramsPer100Ml', 'acidity', 0),
    numberUsually('secondSugarGramsPerLitre', 0, SUGAR),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
  ],
  says: {
    answers: ['volumeAfter', 'alcohol', 'acidity', 'sugarGramsPerLitre', 'contraction'],
    steps: ['blendedVolume', 'blendedAlcohol', 'blendedAcidity', 'blendedSugar'],
    cautions: ['worksOutNotMeasured', 'neverConcentrate', 'errorTakenFromMethod'],
    reasons: ['nothingToBlend'],
  },
  standsFor: {
    volumeLitres: 'firstVolumeUl',
    alcoholPercentVol: 'firstPercentVol',
    acidityGramsPer100Ml: 'firstGramsPer100Ml',
    sugarGramsPerLitre: 'firstSugarGramsPerLitre',
  },
  reckon(values) {
    if (values.firstVolumeUl + values.secondVolumeUl === 0) return impossible('nothingToBlend');
    const strength = (percentVol: number) =>
      notNothing(measured(percentVol, 'alcoholFromGravities', values.alcoholUncertainty));
    const sourness = (grams: number) =>
      notNothing(measured(grams, 'taSyringeKit', values.acidityUncertainty));
    const inputs = {
      firstLitres: measured(values.firstVolumeUl / UL_PER_LITRE, 'jugOrMark'),
      firstAlcohol: strength(values.firstPercentVol),
      firstAcid: sourness(values.firstGramsPer100Ml),
      secondLitres: measured(values.secondVolumeUl / UL_PER_LITRE, 'jugOrMark'),
      secondAlcohol: strength(values.secondPercentVol),
      secondAcid: sourness(values.secondGramsPer100Ml),
    };
    const sugars = { first: values.firstSugarGramsPerLitre, second: values.secondSugarGramsPerLitre };
    const all = propagateEach(
      [
        'volumeLitres',
        'alcoholPercentVol',
        'acidityGramsPer100Ml',
        'sugarGramsPerLitre',
        'contractionLitres',
      ],
      (part: Readonly<Record<keyof typeof inputs, number>>) => blend(partsOf(part, sugars)),
      inputs,
    );
    if (!all.ok) return all;
    const { volumeLitres, alcoholPercentVol, acidityGramsPer100Ml, sugarGramsPerLitre, contractionLitres } =
      all.value;
    const { firstLitres: one, secondLitres: two } = inputs;
    const shares = (first: number, second: number) =>
      `(${figure(one.value)} × ${figure(first)} + ${figure(two.value)} × ${figure(second)}) ÷ ${figure(volumeLitres.value)}`;
    return ok({
      answers: [
        answer('volumeAfter', volumeLitres, 'volume', { times: UL_PER_LITRE }),
        answer('alcohol', alcoholPercentVol, 'alcohol'),
        answer('acidity', acidityGramsPer100Ml, 'acidity'),
        answer('sugarGramsPerLitre', sugarGramsPerLitre, 'g/L'),
        answer('contraction', contractionLitres.value, 'volume', { times: UL_PER_LITRE }),
      ],
      steps: [
        step(
          'blendedVolume',
          `${figure(one.value)} L + ${figure(two.value)} L ${lessFigure(contractionLitres.value)} L`,
          volumeLitres.value,
          'L',
          SOURCE,
        ),
        step(
          'blendedAlcohol',
          `grams of alcohol over grams of the whole, from ${figure(values.firstPercentVol)} and ${figure(values.secondPercentVol)} % vol`,
          alcoholPercentVol.value,
          '% vol',
          SOURCE,
        ),
        step(
          'blendedAcidity',
          shares(values.firstGramsPer100Ml, values.secondGramsPer100Ml),
          acidityGramsPer100Ml.value,
          'g/100 mL',
          'mass balance',
        ),
        step(
          'blendedSugar',
          shares(sugars.first, sugars.second),
          sugarGramsPerLitre.value,
          'g/L',
          'mass balance',
        ),
      ],
      cautions: [
        'worksOutNotMeasured',
        ...cautionIf(
          Math.max(values.firstPercentVol, values.secondPercentVol) > SPIRIT_PERCENT_VOL,
          'neverConcentrate',
        ),
        ...errorCaution(...Object.values(inputs)),
      ],
    });
  },
});

/** Water holds no alcohol and no acid, and that is known. */
function notNothing(value: MeasuredValue): MeasuredValue {
  return value.value === 0 ? exact(0) : value;
}

function partsOf(
  part: Readonly<
    Record<
      'firstLitres' | 'firstAlcohol' | 'firstAcid' | 'secondLitres' | 'secondAlcohol' | 'secondAcid',
      number
    >
  >,
  sugars: { readonly first: number; readonly second: number },
): readonly BlendPart[] {
  return [
    {
      volumeLitres: part.firstLitres,
      alcoholPercentVol: part.firstAlcohol,
      acidityGramsPer100Ml: part.firstAcid,
      sugarGramsPerLitre: sugars.first,
    },
    {
      volumeLitres: part.secondLitres,
      alcoholPercentVol: part.secondAlcohol,
      acidityGramsPer100Ml: part.secondAcid,
      sugarGramsPerLitre: sugars.second,
    },
  ];
}
