import { ok } from '../base/result.ts';
import { acidityFactor, convertAcidity, EQUIVALENT_MASS } from '../acid/acid-equivalents.ts';
import { grainStrength } from '../acid/titration.ts';
import { answer, step } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { ACIDITY_METHODS, choice, numberNeeded, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, exact, measured } from './measured.ts';
import { ACIDS } from './titration.ts';

/** An acidity counted as one acid, counted as another. */
export const convertAcid = defineReckoning({
  id: 'convertAcid',
  group: 'acid',
  fields: [
    numberNeeded('acidityGramsPerLitre', { unit: 'g/L', low: 0, high: 200 }),
    choice('from', ACIDS, 'tartaric'),
    choice('to', ACIDS, 'acetic'),
    choice('measuredBy', [...ACIDITY_METHODS, 'exact']),
    uncertaintyOf('acidity', { unit: 'g/L', high: 50 }),
  ],
  says: {
    answers: ['acidityGramsPerLitre', 'acidityGramsPer100Ml', 'grain'],
    steps: ['acidFactor', 'convertedAcidity'],
    cautions: ['fruitAcidCounts', 'errorTakenFromMethod'],
    reasons: [],
  },
  standsFor: { acidity: 'acidityGramsPerLitre' },
  reckon({ acidityGramsPerLitre, from, to, measuredBy, acidityUncertainty }) {
    // The methods know their error in g/100 mL.
    const given = acidityUncertainty === null ? null : acidityUncertainty / 10;
    const found =
      measuredBy === 'exact'
        ? { ...exact(acidityGramsPerLitre / 10), uncertainty: given ?? 0 }
        : measured(acidityGramsPerLitre / 10, measuredBy, given);
    const converted = convertAcidity({ acidity: acidityGramsPerLitre, from, to });
    if (!converted.ok) return converted;
    const uncertainty = convertAcidity({ acidity: found.uncertainty * 10, from, to });
    if (!uncertainty.ok) return uncertainty;
    const perLitre = { value: converted.value, uncertainty: uncertainty.value };
    const factor = acidityFactor({ from, to });
    return ok({
      answers: [
        answer('acidityGramsPerLitre', perLitre, 'g/L'),
        answer('acidityGramsPer100Ml', perLitre, 'g/100 mL', { times: 0.1 }),
        ...(to === 'acetic'
          ? [
              answer(
                'grain',
                {
                  value: grainStrength(perLitre.value / 10),
                  uncertainty: grainStrength(perLitre.uncertainty / 10),
                },
                'grain',
              ),
            ]
          : []),
      ],
      steps: [
        step(
          'acidFactor',
          `${figure(EQUIVALENT_MASS[to], 3)} ÷ ${figure(EQUIVALENT_MASS[from], 3)}`,
          factor,
          '×',
          'equivalent masses from IUPAC 2021 atomic weights',
        ),
        step(
          'convertedAcidity',
          `${figure(acidityGramsPerLitre)} × ${figure(factor)}`,
          converted.value,
          'g/L',
          'equal moles of hydrogen ions',
        ),
      ],
      cautions: [...(to === 'acetic' ? (['fruitAcidCounts'] as const) : []), ...errorCaution(found)],
    });
  },
});
