import { ok } from '../base/result.ts';
import {
  freeSulfiteFor,
  metabisulfiteGrams,
  sulfiteAgainstVinegar,
  SULFITE_IN_METABISULFITE,
  SULFITE_IN_METABISULFITE_PLAN,
  SULFITE_PK1,
} from '../acid/sulfite.ts';
import { answer, step, UG_PER_GRAM, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, numberUsually, PH_METHODS, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';
import { COMMON_MOLECULAR, SULFITE_SOURCE } from './molecular-sulfite.ts';

/** mg/L of free SO2 up to which the bench reckons; no drink is meant to hold so much. */
const MOST_FREE = 500;

/** Metabisulfite that brings a wine to so much molecular SO2 at its pH. */
export const sulfiteToAdd = defineReckoning({
  id: 'sulfiteToAdd',
  group: 'acid',
  carriesOut: 'addSulfite',
  amountAnswer: 'metabisulfite',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl'),
    needed('pH', 'pH', 'ph', { low: 2, high: 5 }),
    needed('freeMgPerLitre', 'freeSulfite', 'freeSulfite'),
    numberUsually('molecularMgPerLitre', COMMON_MOLECULAR, { unit: 'mg/L', low: 0.05, high: 2 }),
    choice('powder', ['fresh', 'stoodOpen']),
    choice('pHBy', PH_METHODS),
    numberUsually('pK1', SULFITE_PK1, { unit: '', low: 1.5, high: 2.5 }),
    uncertaintyOf('free', { unit: 'mg/L', high: 100 }),
    uncertaintyOf('pH', { unit: 'pH', high: 1 }),
  ],
  says: {
    answers: ['metabisulfite', 'freeWanted', 'sulfiteAdded'],
    steps: ['freeWanted', 'sulfiteAdded', 'metabisulfite'],
    cautions: [
      'sulfiteGas',
      'sulfiteMayHinderVinegar',
      'sulfiteStopsVinegar',
      'declareSulfite',
      'someSulfiteBinds',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: ['enoughSulfite', 'tooMuchSulfite'],
  },
  standsFor: { volumeLitres: 'volumeUl', addMgPerLitre: 'molecularMgPerLitre' },
  reckon(values) {
    const { pK1, molecularMgPerLitre, powder } = values;
    const volume = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark');
    const free = measured(values.freeMgPerLitre, 'sulfiteKit', values.freeUncertainty);
    const pH = measured(values.pH, values.pHBy, values.pHUncertainty);
    const wanted = freeSulfiteFor({ molecularMgPerLitre, pH: pH.value, pK1 });
    if (!wanted.ok) return wanted;
    if (wanted.value <= free.value) {
      return impossible('enoughSulfite', { free: free.value, wanted: wanted.value });
    }
    if (wanted.value > MOST_FREE) return impossible('tooMuchSulfite', { pH: pH.value, wanted: wanted.value });
    const all = propagateEach(
      ['wanted', 'add', 'fresh', 'stoodOpen'],
      (part: Readonly<Record<'volume' | 'free' | 'pH', number>>) => {
        const want = freeSulfiteFor({ molecularMgPerLitre, pH: part.pH, pK1 });
        if (!want.ok) return want;
        const add = Math.max(0, want.value - part.free);
        const grams = metabisulfiteGrams({ addMgPerLitre: add, volumeLitres: part.volume });
        if (!grams.ok) return grams;
        return ok({ wanted: want.value, add, fresh: grams.value.theory, stoodOpen: grams.value.plan });
      },
      { volume, free, pH },
    );
    if (!all.ok) return all;
    const against = sulfiteAgainstVinegar({ freeMgPerLitre: wanted.value, pH: pH.value });
    if (!against.ok) return against;
    const { add } = all.value;
    const share = powder === 'fresh' ? SULFITE_IN_METABISULFITE : SULFITE_IN_METABISULFITE_PLAN;
    return ok({
      answers: [
        answer('metabisulfite', all.value[powder], 'mass', {
          times: UG_PER_GRAM,
          range: { low: all.value.fresh.value, high: all.value.stoodOpen.value },
        }),
        answer('freeWanted', all.value.wanted, 'freeSulfite'),
        answer('sulfiteAdded', add, 'mg/L'),
      ],
      steps: [
        step(
          'freeWanted',
          `${figure(molecularMgPerLitre)} × (1 + 10^(${figure(pH.value, 2)} − ${figure(pK1)}))`,
          all.value.wanted.value,
          'mg/L',
          SULFITE_SOURCE,
        ),
        step(
          'sulfiteAdded',
          `${figure(wanted.value)} − ${figure(free.value)}`,
          add.value,
          'mg/L',
          'difference',
        ),
        step(
          'metabisulfite',
          `${figure(add.value)} mg/L × ${figure(volume.value)} L ÷ 1000 ÷ ${figure(share, 3)}`,
          all.value[powder].value,
          'g',
          powder === 'fresh'
            ? 'molar masses, IUPAC 2021'
            : 'common practice for a powder that has stood open',
        ),
      ],
      cautions: [
        'sulfiteGas',
        ...cautionIf(against.value.conflict === 'mayHinder', 'sulfiteMayHinderVinegar'),
        ...cautionIf(against.value.conflict === 'stops', 'sulfiteStopsVinegar'),
        'declareSulfite',
        'someSulfiteBinds',
        'worksOutNotMeasured',
        ...errorCaution(volume, free, pH),
      ],
    });
  },
});
