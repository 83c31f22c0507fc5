import { ok } from '../base/result.ts';
import { ACETIC_PER_PERCENT_THEORY, totalConcentration } from '../acid/acetification.ts';
import { acetificationProgress, type Standing } from '../acid/acetification-progress.ts';
import { answer, step } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { ACIDITY_METHODS, choice, needed, uncertaintyOf, usually } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured } from './measured.ts';

const SOURCE = 'total concentration, convention of the Ebner school';

/** How an acetification goes: alcohol and acid together then and now, the yields, and what they warn of. */
export const gkCheck = defineReckoning({
  id: 'gkCheck',
  group: 'acid',
  fields: [
    needed('startPercentVol', 'alcohol', null, { high: 20 }),
    usually('startGramsPer100Ml', 'acidity', 0),
    needed('nowPercentVol', 'alcohol', 'alcohol', { high: 20 }),
    needed('nowGramsPer100Ml', 'acidity', 'acidity'),
    choice('measuredBy', ACIDITY_METHODS),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
  ],
  says: {
    answers: ['totalAtStart', 'totalNow', 'concentrationYield', 'acidYield'],
    steps: ['totalAtStart', 'totalNow', 'concentrationYield', 'acidYield'],
    cautions: [
      'totalConcentrationFell',
      'acidityFell',
      'alcoholNearlyGone',
      'moreAcidThanPossible',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: [],
  },
  standsFor: {
    totalConcentration: 'startPercentVol',
    alcoholPercentVol: 'startPercentVol',
    acidityGramsPer100Ml: 'startGramsPer100Ml',
  },
  reckon(values) {
    const strength = (value: number) => measured(value, 'alcoholFromGravities', values.alcoholUncertainty);
    const acidity = (value: number) => measured(value, values.measuredBy, values.acidityUncertainty);
    const start = {
      alcoholPercentVol: strength(values.startPercentVol),
      acidityGramsPer100Ml: acidity(values.startGramsPer100Ml),
    };
    const now = {
      alcoholPercentVol: strength(values.nowPercentVol),
      acidityGramsPer100Ml: acidity(values.nowGramsPer100Ml),
    };
    const progress = acetificationProgress(start, now);
    if (!progress.ok) return progress;
    const [before, after] = [totalOf(start), totalOf(now)];
    if (!before.ok) return before;
    if (!after.ok) return after;
    const { concentrationYield, acidYield, notes } = progress.value;
    const sum = (percentVol: number, grams: number) => `${figure(percentVol)} + ${figure(grams)}`;
    return ok({
      answers: [
        answer('totalAtStart', { value: before.value, uncertainty: errorOf(start) }, 'GK'),
        answer('totalNow', { value: after.value, uncertainty: errorOf(now) }, 'GK'),
        answer('concentrationYield', concentrationYield, '%', { times: 100 }),
        ...(acidYield === null
          ? []
          : [
              answer(
                'acidYield',
                { value: acidYield, uncertainty: acidYieldError(start, now, acidYield) },
                '%',
                { times: 100 },
              ),
            ]),
      ],
      steps: [
        step(
          'totalAtStart',
          sum(values.startPercentVol, values.startGramsPer100Ml),
          before.value,
          'GK',
          SOURCE,
        ),
        step('totalNow', sum(values.nowPercentVol, values.nowGramsPer100Ml), after.value, 'GK', SOURCE),
        step(
          'concentrationYield',
          `${figure(after.value)} ÷ ${figure(before.value)} × 100`,
          concentrationYield.value * 100,
          '%',
          SOURCE,
        ),
        ...(acidYield === null
          ? []
          : [
              step(
                'acidYield',
                `(${figure(values.nowGramsPer100Ml)} − ${figure(values.startGramsPer100Ml)}) ÷ [(${figure(values.startPercentVol)} − ${figure(values.nowPercentVol)}) × ${figure(ACETIC_PER_PERCENT_THEORY)}] × 100`,
                acidYield * 100,
                '%',
                'stoichiometry, IUPAC 2021',
              ),
            ]),
      ],
      cautions: [
        ...notes,
        'worksOutNotMeasured',
        ...errorCaution(
          start.alcoholPercentVol,
          start.acidityGramsPer100Ml,
          now.alcoholPercentVol,
          now.acidityGramsPer100Ml,
        ),
      ],
    });
  },
});

function totalOf({ alcoholPercentVol, acidityGramsPer100Ml }: Standing) {
  return totalConcentration({
    alcoholPercentVol: alcoholPercentVol.value,
    acidityGramsPer100Ml: acidityGramsPer100Ml.value,
  });
}

function errorOf({ alcoholPercentVol, acidityGramsPer100Ml }: Standing): number {
  return Math.hypot(alcoholPercentVol.uncertainty, acidityGramsPer100Ml.uncertainty);
}

/** First order over acid made and alcohol used; a quotient, so the parts are taken over the alcohol used. */
function acidYieldError(start: Standing, now: Standing, acidYield: number): number {
  const used = start.alcoholPercentVol.value - now.alcoholPercentVol.value;
  const ofAcid = Math.hypot(start.acidityGramsPer100Ml.uncertainty, now.acidityGramsPer100Ml.uncertainty);
  const ofAlcohol = Math.hypot(start.alcoholPercentVol.uncertainty, now.alcoholPercentVol.uncertainty);
  return Math.hypot(ofAcid / ACETIC_PER_PERCENT_THEORY, acidYield * ofAlcohol) / used;
}
