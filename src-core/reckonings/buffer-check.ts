import { mapOk, ok, type Result } from '../base/result.ts';
import { bufferCapacity, PKA } from '../acid/ph.ts';
import { invertMonotone } from '../quantities/polynomial.ts';
import type { OutOfRange } from '../quantities/validity.ts';
import { answer, step } from './answer.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { ACIDITY_METHODS, choice, needed, PH_METHODS, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';
import { aceticAt } from './ph-of-acetic.ts';

const SOURCE = 'charge balance; pKa at 25 °C by the CRC Handbook';

/** What a measured pH says beside a measured acidity: how much of the acid the salts of the fruit hold bound. */
export const bufferCheck = defineReckoning({
  id: 'bufferCheck',
  group: 'acid',
  fields: [
    needed('acidityGramsPer100Ml', 'acidity', 'acidity', { low: 0.01 }),
    needed('pH', 'pH', 'ph', { low: 1, high: 7 }),
    choice('acidityBy', ACIDITY_METHODS),
    choice('pHBy', PH_METHODS),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
    uncertaintyOf('pH', { unit: 'pH', high: 1 }),
  ],
  says: {
    answers: ['pureAcidPh', 'boundBase', 'bufferCapacity'],
    steps: ['pureAcidPh', 'boundBase', 'bufferCapacity'],
    cautions: ['phIsNotStrength', 'fruitAcidCounts', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: ['moreAcidThanSaid'],
  },
  standsFor: {
    massPercent: 'acidityGramsPer100Ml',
    molesPerLitre: 'acidityGramsPer100Ml',
    strongBaseMolesPerLitre: 'pH',
  },
  reckon(values) {
    const acidity = measured(values.acidityGramsPer100Ml, values.acidityBy, values.acidityUncertainty);
    const pH = measured(values.pH, values.pHBy, values.pHUncertainty);
    const pure = propagateEach(
      ['pH', 'molesPerLitre'],
      (part: { readonly acidity: number }) => aceticAt(part.acidity),
      { acidity },
    );
    if (!pure.ok) return pure;
    const pureAcidPh = pure.value.pH;
    if (pureAcidPh.value - pH.value > Math.hypot(pureAcidPh.uncertainty, pH.uncertainty)) {
      return impossible('moreAcidThanSaid', { pH: pH.value, pureAcidPh: pureAcidPh.value });
    }
    const found = propagateEach(
      ['base', 'capacity'],
      (part: Readonly<Record<'acidity' | 'pH', number>>) => boundAt(part.acidity, part.pH),
      { acidity, pH },
    );
    if (!found.ok) return found;
    const { base, capacity } = found.value;
    const moles = figure(pure.value.molesPerLitre.value);
    return ok({
      answers: [
        answer('boundBase', base, 'mmol/L', { times: 1000 }),
        answer('pureAcidPh', pureAcidPh, 'pH'),
        answer('bufferCapacity', capacity, 'mmol/L for each pH', { times: 1000 }),
      ],
      steps: [
        step(
          'pureAcidPh',
          `charges in balance with ${moles} mol/L and nothing else`,
          pureAcidPh.value,
          'pH',
          SOURCE,
        ),
        step(
          'boundBase',
          `base that brings ${moles} mol/L to pH ${figure(pH.value, 2)}`,
          base.value * 1000,
          'mmol/L',
          SOURCE,
        ),
        step(
          'bufferCapacity',
          `ln 10 × (h + Kw/h + C Ka h ÷ (Ka + h)²) at pH ${figure(pH.value, 2)}`,
          capacity.value * 1000,
          'mmol/L for each pH',
          'Van Slyke 1922',
        ),
      ],
      cautions: ['phIsNotStrength', 'fruitAcidCounts', 'worksOutNotMeasured', ...errorCaution(acidity, pH)],
    });
  },
});

/** Mol/L of strong base, none where the acid alone is less sour, and the buffer capacity there. */
function boundAt(
  acidityGramsPer100Ml: number,
  pH: number,
): Result<{ readonly base: number; readonly capacity: number }, OutOfRange> {
  const pure = aceticAt(acidityGramsPer100Ml);
  if (!pure.ok) return pure;
  const { molesPerLitre } = pure.value;
  const base =
    pH <= pure.value.pH
      ? 0
      : (invertMonotone(
          (strongBase) => {
            const found = aceticAt(acidityGramsPer100Ml, strongBase);
            return found.ok ? found.value.pH : Number.NaN;
          },
          pH,
          0,
          molesPerLitre,
        ) ?? molesPerLitre);
  return mapOk(
    bufferCapacity({ pH, acids: PKA.acetic.map((pKa) => ({ molesPerLitre, pKa })) }),
    (capacity) => ({ base, capacity }),
  );
}
