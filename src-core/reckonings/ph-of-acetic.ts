import { ok, type Result } from '../base/result.ts';
import { aceticMolesPerLitre, PKA, solutionPh } from '../acid/ph.ts';
import { MOLAR_MASS } from '../must/stoichiometry.ts';
import type { OutOfRange } from '../quantities/validity.ts';
import { answer, step } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { ACIDITY_METHODS, choice, needed, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

/** pH of acetic acid and water alone, to show how little pH says of strength. */
export const phOfAcetic = defineReckoning({
  id: 'phOfAcetic',
  group: 'acid',
  fields: [
    needed('acidityGramsPer100Ml', 'acidity', 'acidity'),
    choice('measuredBy', ACIDITY_METHODS),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
  ],
  says: {
    answers: ['pureAcidPh', 'molesPerLitre'],
    steps: ['molesPerLitre', 'pureAcidPh'],
    cautions: ['phIsNotStrength', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: [],
  },
  standsFor: { massPercent: 'acidityGramsPer100Ml', molesPerLitre: 'acidityGramsPer100Ml' },
  reckon(values) {
    const acidity = measured(values.acidityGramsPer100Ml, values.measuredBy, values.acidityUncertainty);
    const found = propagateEach(
      ['pH', 'molesPerLitre'],
      (part: { readonly acidity: number }) => aceticAt(part.acidity),
      { acidity },
    );
    if (!found.ok) return found;
    const { pH, molesPerLitre } = found.value;
    return ok({
      answers: [answer('pureAcidPh', pH, 'pH'), answer('molesPerLitre', molesPerLitre, 'mol/L')],
      steps: [
        step(
          'molesPerLitre',
          `${figure(acidity.value)} × 10 ÷ ${MOLAR_MASS.acetic}`,
          molesPerLitre.value,
          'mol/L',
          'molar mass from IUPAC 2021 atomic weights',
        ),
        step(
          'pureAcidPh',
          `charges in balance with ${figure(molesPerLitre.value)} mol/L at pKa ${PKA.acetic.join(', ')}`,
          pH.value,
          'pH',
          'charge balance; pKa at 25 °C by the CRC Handbook',
        ),
      ],
      cautions: ['phIsNotStrength', 'worksOutNotMeasured', ...errorCaution(acidity)],
    });
  },
});

/** pH and mol/L of acetic acid of so many g/100 mL, and nothing else, in water. */
export function aceticAt(
  acidityGramsPer100Ml: number,
  strongBaseMolesPerLitre = 0,
): Result<{ readonly pH: number; readonly molesPerLitre: number }, OutOfRange> {
  // Grams in 100 mL over a density of 1 g/mL is the mass percentage that stands for them.
  const moles = aceticMolesPerLitre({ massPercent: acidityGramsPer100Ml, densityGramsPerMl: 1 });
  if (!moles.ok) return moles;
  const pH = solutionPh({
    acids: [{ molesPerLitre: moles.value, pKa: PKA.acetic }],
    strongBaseMolesPerLitre,
  });
  return pH.ok ? ok({ pH: pH.value, molesPerLitre: moles.value }) : pH;
}
