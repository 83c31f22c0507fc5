import { mapOk, ok, type Result } from '../base/result.ts';
import { fermentableSugar, type SugarSource } from '../must/must-sugar.ts';
import {
  potentialAlcohol as potential,
  SUGAR_PER_PERCENT_PLAN,
  SUGAR_PER_PERCENT_THEORY,
} from '../must/potential-alcohol.ts';
import { gravityToBrix } from '../quantities/gravity.ts';
import type { OutOfRange } from '../quantities/validity.ts';
import { answer, step } from './answer.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { choice, GRAVITY_METHODS, needed, uncertaintyOf } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, propagateEach } from './measured.ts';
import { measuredGravity } from './measured-gravity.ts';

/** What a must is made of, as far as its sugar is concerned. */
export const FRUITS = [
  'apple',
  'pear',
  'grape',
  'pineapple',
  'honey',
  'sugarWater',
  'other',
] as const satisfies readonly SugarSource[];

/** The alcohol a juice can reach: at most by theory, and to plan with. */
export const potentialAlcohol = defineReckoning({
  id: 'potentialAlcohol',
  group: 'must',
  fields: [
    needed('gravity', 'gravity', 'gravity'),
    choice('fruit', FRUITS),
    choice('measuredBy', GRAVITY_METHODS),
    uncertaintyOf('gravity', { unit: 'SG', high: 0.02 }),
  ],
  says: {
    answers: ['planAlcohol', 'theoryAlcohol', 'sugarGramsPerLitre', 'brix'],
    steps: ['gravityToBrix', 'fermentableSugar', 'planAlcohol', 'theoryAlcohol'],
    cautions: ['brixIsNotSugar', 'worksOutNotMeasured', 'plansAreRanges', 'errorTakenFromMethod'],
    reasons: ['noSugarBelowWater'],
  },
  standsFor: {
    specificGravity: 'gravity',
    sucroseMassPercent: 'gravity',
    brix: 'gravity',
    sugarGramsPerLitre: 'gravity',
    sugarUncertaintyGramsPerLitre: 'gravity',
  },
  reckon({ gravity: value, fruit, measuredBy, gravityUncertainty }) {
    if (value < 1) return impossible('noSugarBelowWater', { gravity: value });
    const gravity = measuredGravity(value, measuredBy, gravityUncertainty);
    const here = sugarOf(value, fruit);
    if (!here.ok) return here;
    const reading = propagateEach(
      ['brix', 'mid'],
      ({ gravity: at }: { readonly gravity: number }) => sugarOf(at, fruit),
      { gravity },
    );
    if (!reading.ok) return reading;
    const { brix, low, mid, high, source } = here.value;
    const sugarUncertainty = Math.hypot(reading.value.mid.uncertainty, (high - low) / 2);
    const alcohol = potential({
      sugarGramsPerLitre: mid,
      sugarUncertaintyGramsPerLitre: sugarUncertainty,
    });
    if (!alcohol.ok) return alcohol;
    const { planPercentVol, planUncertaintyPercentVol, theoryPercentVol } = alcohol.value;
    const perPercent = (grams: number) => (planPercentVol === 0 ? 0 : (grams * planPercentVol) / mid);
    return ok({
      answers: [
        answer('planAlcohol', { value: planPercentVol, uncertainty: planUncertaintyPercentVol }, 'alcohol', {
          range: { low: perPercent(low), high: perPercent(high) },
        }),
        answer(
          'theoryAlcohol',
          {
            value: theoryPercentVol,
            uncertainty: mid === 0 ? 0 : (sugarUncertainty / mid) * theoryPercentVol,
          },
          'alcohol',
          { limit: 'upper' },
        ),
        answer('sugarGramsPerLitre', { value: mid, uncertainty: sugarUncertainty }, 'g/L', {
          range: { low, high },
        }),
        answer('brix', reading.value.brix, '°Bx'),
      ],
      steps: [
        step('gravityToBrix', `Bx at which ρ(Bx) gives ${gravityFigure(value)}`, brix, '°Bx', 'ICUMSA SPS-4'),
        step(
          'fermentableSugar',
          `${figure(low)} to ${figure(high)} g/L at ${figure(brix)} °Bx`,
          mid,
          'g/L',
          source,
        ),
        step(
          'planAlcohol',
          `${figure(mid)} ÷ ${figure(SUGAR_PER_PERCENT_PLAN)}`,
          planPercentVol,
          '% vol',
          'convention of the EU and the OIV (arrêté of 14 September 2011)',
        ),
        step(
          'theoryAlcohol',
          `${figure(mid)} ÷ ${figure(SUGAR_PER_PERCENT_THEORY, 2)}`,
          theoryPercentVol,
          '% vol',
          'stoichiometry, IUPAC 2021 atomic weights',
        ),
      ],
      cautions: ['worksOutNotMeasured', 'brixIsNotSugar', 'plansAreRanges', ...errorCaution(gravity)],
    });
  },
});

function sugarOf(
  gravity: number,
  of: SugarSource,
): Result<
  {
    readonly brix: number;
    readonly low: number;
    readonly mid: number;
    readonly high: number;
    readonly source: string;
  },
  OutOfRange
> {
  const brix = gravityToBrix(gravity);
  if (!brix.ok) return brix;
  return mapOk(fermentableSugar({ brix: brix.value, of }), (sugar) => ({
    brix: brix.value,
    low: sugar.lowGramsPerLitre,
    mid: sugar.midGramsPerLitre,
    high: sugar.highGramsPerLitre,
    source: sugar.source,
  }));
}
