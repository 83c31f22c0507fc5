import { mapOk, ok } from '../base/result.ts';
import {
  freeSulfiteFor,
  molecularSulfite as molecular,
  sulfiteAgainstVinegar,
  SULFITE_PK1,
} from '../acid/sulfite.ts';
import { DECLARED_SULFITE } from '../safety/rules/drinks.ts';
import { answer, step } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { defineReckoning } from './define-reckoning.ts';
import { choice, needed, numberUsually, PH_METHODS, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

/** Molecular SO2 that wines are commonly kept at, mg/L. Common practice. */
export const COMMON_MOLECULAR = 0.8;
export const SULFITE_SOURCE =
  'Henderson–Hasselbalch, pK₁ 1.81 at 20 °C by wine practice; laboratories also use 1.77';

/** The part of the free sulfite that works, which depends on the pH; and whether a mother could live in it. */
export const molecularSulfite = defineReckoning({
  id: 'molecularSulfite',
  group: 'acid',
  fields: [
    needed('freeMgPerLitre', 'freeSulfite', 'freeSulfite'),
    needed('pH', 'pH', 'ph', { low: 2, high: 5 }),
    choice('pHBy', PH_METHODS),
    numberUsually('pK1', SULFITE_PK1, { unit: '', low: 1.5, high: 2.5 }),
    uncertaintyOf('free', { unit: 'mg/L', high: 100 }),
    uncertaintyOf('pH', { unit: 'pH', high: 1 }),
  ],
  says: {
    answers: ['molecularSulfite', 'molecularShare', 'freeForProtection'],
    steps: ['molecularShare', 'molecularSulfite', 'freeForProtection'],
    cautions: [
      'sulfiteMayHinderVinegar',
      'sulfiteStopsVinegar',
      'declareSulfite',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: [],
  },
  reckon(values) {
    const { pK1 } = values;
    const free = measured(values.freeMgPerLitre, 'sulfiteKit', values.freeUncertainty);
    const pH = measured(values.pH, values.pHBy, values.pHUncertainty);
    const found = propagateEach(
      ['molecular'],
      (part: Readonly<Record<'free' | 'pH', number>>) =>
        mapOk(molecular({ freeMgPerLitre: part.free, pH: part.pH, pK1 }), (value) => ({ molecular: value })),
      { free, pH },
    );
    if (!found.ok) return found;
    const needs = propagateEach(
      ['share', 'free'],
      (part: { readonly pH: number }) => {
        const share = molecular({ freeMgPerLitre: 100, pH: part.pH, pK1 });
        if (!share.ok) return share;
        const wanted = freeSulfiteFor({ molecularMgPerLitre: COMMON_MOLECULAR, pH: part.pH, pK1 });
        return wanted.ok ? ok({ share: share.value, free: wanted.value }) : wanted;
      },
      { pH },
    );
    if (!needs.ok) return needs;
    const against = sulfiteAgainstVinegar({ freeMgPerLitre: free.value, pH: pH.value });
    if (!against.ok) return against;
    const { share, free: wanted } = needs.value;
    return ok({
      answers: [
        answer('molecularSulfite', found.value.molecular, 'mg/L'),
        answer('molecularShare', share, '%'),
        answer('freeForProtection', wanted, 'freeSulfite'),
      ],
      steps: [
        step(
          'molecularShare',
          `100 ÷ (1 + 10^(${figure(pH.value, 2)} − ${figure(pK1)}))`,
          share.value,
          '%',
          SULFITE_SOURCE,
        ),
        step(
          'molecularSulfite',
          `${figure(free.value)} × ${figure(share.value)} ÷ 100`,
          found.value.molecular.value,
          'mg/L',
          SULFITE_SOURCE,
        ),
        step(
          'freeForProtection',
          `${COMMON_MOLECULAR} × (1 + 10^(${figure(pH.value, 2)} − ${figure(pK1)}))`,
          wanted.value,
          'mg/L',
          `${SULFITE_SOURCE}; 0.8 mg/L is common practice`,
        ),
      ],
      cautions: [
        ...cautionIf(against.value.conflict === 'mayHinder', 'sulfiteMayHinderVinegar'),
        ...cautionIf(against.value.conflict === 'stops', 'sulfiteStopsVinegar'),
        ...cautionIf(free.value + free.uncertainty >= DECLARED_SULFITE, 'declareSulfite'),
        'worksOutNotMeasured',
        ...errorCaution(free, pH),
      ],
    });
  },
});
