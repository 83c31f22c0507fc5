import { mapOk, ok, type Result } from '../base/result.ts';
import { brixFromSucroseGramsPerLitre, sucroseGramsPerLitre } from '../must/sugar-solution.ts';
import { brixToGravity, gravityToBrix, gravityToPlatoAsbc } from '../quantities/gravity.ts';
import type { OutOfRange } from '../quantities/validity.ts';
import { answer, step } from './answer.ts';
import { asked, defineReckoning, impossible } from './define-reckoning.ts';
import { choice, GRAVITY_METHODS, needed, numberNeeded, uncertaintyOf, when } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, exact, propagateEach } from './measured.ts';
import { measuredGravity } from './measured-gravity.ts';

const SOURCE = 'ICUMSA SPS-4 (Bettin et al. 1998), weighed in air';

/** One sugar scale into the others: SG, °Brix, °Plato and grams in a litre. */
export const convertSugar = defineReckoning({
  id: 'convertSugar',
  group: 'must',
  fields: [
    choice('startFrom', ['gravity', 'gramsPerLitre']),
    when('startFrom', ['gravity'], needed('gravity', 'gravity', 'gravity')),
    when(
      'startFrom',
      ['gramsPerLitre'],
      numberNeeded('sugarGramsPerLitre', { unit: 'g/L', low: 0, high: 770 }),
    ),
    when('startFrom', ['gravity'], choice('measuredBy', GRAVITY_METHODS)),
    when('startFrom', ['gravity'], uncertaintyOf('gravity', { unit: 'SG', high: 0.02 })),
    when('startFrom', ['gramsPerLitre'], uncertaintyOf('sugar', { unit: 'g/L', high: 100 })),
  ],
  says: {
    answers: ['gravity', 'brix', 'plato', 'sugarGramsPerLitre'],
    steps: ['gravityToBrix', 'gramsPerLitreToBrix', 'brixToGravity', 'brixToGramsPerLitre', 'gravityToPlato'],
    cautions: ['brixIsNotSugar', 'errorTakenFromMethod'],
    reasons: ['noSugarBelowWater'],
  },
  standsFor: {
    specificGravity: 'gravity',
    sucroseMassPercent: 'gravity',
    gramsPerLitre: 'sugarGramsPerLitre',
  },
  reckon(values) {
    const fromGravity = values.startFrom === 'gravity';
    const gravity = fromGravity ? asked(values.gravity) : null;
    if (gravity !== null && gravity < 1) return impossible('noSugarBelowWater', { gravity });
    const start =
      gravity === null
        ? { ...exact(asked(values.sugarGramsPerLitre)), uncertainty: values.sugarUncertainty ?? 0 }
        : measuredGravity(gravity, values.measuredBy, values.gravityUncertainty);
    const all = propagateEach(
      ['gravity', 'brix', 'sugarGramsPerLitre'],
      ({ start: from }: { readonly start: number }) => scalesOf(from, fromGravity),
      { start },
    );
    if (!all.ok) return all;
    const { brix, gravity: sg, sugarGramsPerLitre: sugar } = all.value;
    // The cubic is published to 20 °P; beyond it the scale is not offered.
    const plato = propagateEach(
      ['plato'],
      ({ sg: at }: { readonly sg: number }) => mapOk(gravityToPlatoAsbc(at), (value) => ({ plato: value })),
      { sg },
    );
    return ok({
      answers: [
        answer('gravity', sg, 'gravity'),
        answer('brix', brix, '°Bx'),
        ...(plato.ok ? [answer('plato', plato.value.plato, '°P')] : []),
        answer('sugarGramsPerLitre', sugar, 'g/L'),
      ],
      steps: [
        fromGravity
          ? step(
              'gravityToBrix',
              `Bx at which ρ(Bx) gives ${gravityFigure(sg.value)}`,
              brix.value,
              '°Bx',
              SOURCE,
            )
          : step(
              'gramsPerLitreToBrix',
              `Bx at which 10 × Bx × ρ(Bx) = ${figure(sugar.value)}`,
              brix.value,
              '°Bx',
              SOURCE,
            ),
        step(
          'brixToGravity',
          `(ρ(${figure(brix.value)} °Bx) − 1.2) ÷ (ρ(water) − 1.2)`,
          sg.value,
          'SG',
          SOURCE,
        ),
        step(
          'brixToGramsPerLitre',
          `10 × ${figure(brix.value)} × ${figure(brix.value === 0 ? 0.9982 : sugar.value / (10 * brix.value))} g/mL`,
          sugar.value,
          'g/L',
          'definition of °Brix with ICUMSA density',
        ),
        ...(plato.ok
          ? [
              step(
                'gravityToPlato',
                `cubic of the extract table at ${gravityFigure(sg.value)}`,
                plato.value.plato.value,
                '°P',
                'ASBC extract table, 0–20 °P',
              ),
            ]
          : []),
      ],
      cautions: ['brixIsNotSugar', ...errorCaution(start)],
    });
  },
});

function scalesOf(
  from: number,
  fromGravity: boolean,
): Result<
  { readonly gravity: number; readonly brix: number; readonly sugarGramsPerLitre: number },
  OutOfRange
> {
  const brix = fromGravity ? gravityToBrix(from) : brixFromSucroseGramsPerLitre(from);
  if (!brix.ok) return brix;
  const gravity = fromGravity ? ok(from) : brixToGravity(brix.value);
  if (!gravity.ok) return gravity;
  return mapOk(sucroseGramsPerLitre({ brix: brix.value, temperatureCelsius: 20 }), (sugarGramsPerLitre) => ({
    gravity: gravity.value,
    brix: brix.value,
    sugarGramsPerLitre,
  }));
}
