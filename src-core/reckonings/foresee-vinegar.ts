import { ok } from '../base/result.ts';
import { ACETIC_PER_PERCENT_THEORY, SURFACE_YIELD } from '../acid/acetification.ts';
import { foreseeVinegar as foresee } from '../acid/foresee-vinegar.ts';
import { US_VINEGAR } from '../safety/rules/vinegar.ts';
import { answer, step } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { defineReckoning } from './define-reckoning.ts';
import { ACIDITY_METHODS, choice, needed, uncertaintyOf, usually } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, exact, measured } from './measured.ts';

/** The acidity that a wine, cider or mead may come to as vinegar. */
export const foreseeVinegar = defineReckoning({
  id: 'foreseeVinegar',
  group: 'acid',
  fields: [
    needed('alcoholPercentVol', 'alcohol', 'alcohol', { high: 20 }),
    usually('acidityGramsPer100Ml', 'acidity', 0, 'acidity', { high: 15 }),
    choice('measuredBy', ACIDITY_METHODS),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
  ],
  says: {
    answers: ['plannedAcidity', 'acidityAtMost'],
    steps: ['acidityAtMost', 'plannedAcidityLow', 'plannedAcidityHigh', 'plannedAcidity'],
    cautions: [
      'worksOutNotMeasured',
      'mayFallShortOfVinegar',
      'fruitAcidCounts',
      'plansAreRanges',
      'errorTakenFromMethod',
    ],
    reasons: [],
  },
  reckon(values) {
    const alcohol = measured(values.alcoholPercentVol, 'alcoholFromGravities', values.alcoholUncertainty);
    const acid =
      values.acidityGramsPer100Ml === 0
        ? exact(0)
        : measured(values.acidityGramsPer100Ml, values.measuredBy, values.acidityUncertainty);
    const seen = foresee({
      alcoholPercentVol: alcohol.value,
      alcoholUncertainty: alcohol.uncertainty,
      acidityGramsPer100Ml: acid.value,
      acidityUncertainty: acid.uncertainty,
    });
    if (!seen.ok) return seen;
    const { theory, planLow, planMid, planHigh } = seen.value;
    const { low, mid, high } = SURFACE_YIELD;
    const spread = (planHigh - planLow) / 2;
    const plan = (value: number, error: number, share: number) =>
      `${figure(value + error)} + ${figure(Math.max(0, alcohol.value + (share === mid ? 0 : share < mid ? -alcohol.uncertainty : alcohol.uncertainty)))} × ${figure(ACETIC_PER_PERCENT_THEORY)} × ${figure(share)}`;
    const planSource = 'stoichiometry; yield of a still surface from memory';
    return ok({
      answers: [
        answer('plannedAcidity', { value: planMid, uncertainty: spread }, 'acidity', {
          limit: 'lower',
          range: { low: planLow, high: planHigh },
        }),
        answer(
          'acidityAtMost',
          {
            value: theory,
            uncertainty: Math.hypot(acid.uncertainty, ACETIC_PER_PERCENT_THEORY * alcohol.uncertainty),
          },
          'acidity',
          { limit: 'lower' },
        ),
      ],
      steps: [
        step(
          'acidityAtMost',
          `${figure(acid.value)} + ${figure(alcohol.value)} × ${figure(ACETIC_PER_PERCENT_THEORY)}`,
          theory,
          'g/100 mL',
          'stoichiometry, IUPAC 2021; ethanol 789.24 kg/m³ by OIML R 22',
        ),
        step(
          'plannedAcidityLow',
          plan(acid.value, -Math.min(acid.value, acid.uncertainty), low),
          planLow,
          'g/100 mL',
          planSource,
        ),
        step(
          'plannedAcidityHigh',
          plan(acid.value, acid.uncertainty, high),
          planHigh,
          'g/100 mL',
          planSource,
        ),
        step('plannedAcidity', plan(acid.value, 0, mid), planMid, 'g/100 mL', planSource),
      ],
      cautions: [
        'worksOutNotMeasured',
        ...cautionIf(planLow < US_VINEGAR.value, 'mayFallShortOfVinegar'),
        ...cautionIf(acid.value > 0, 'fruitAcidCounts'),
        'plansAreRanges',
        ...errorCaution(alcohol, acid),
      ],
    });
  },
});
