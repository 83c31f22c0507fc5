import { ok } from '../base/result.ts';
import { alcoholByVolume, alcoholFromGravities as byExcise, exciseFactor } from '../must/attenuation.ts';
import { gravityToBrix } from '../quantities/gravity.ts';
import { METHOD_ERRORS } from '../quantities/uncertainty.ts';
import { answer, step } from './answer.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, uncertaintyOf } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, measured } from './measured.ts';

const SOURCE = 'UK HMRC Excise Notice 226 section 30.3 (memory)';
const BALLING_SOURCE = 'Balling 1865; De Clerck';

/** Alcohol from the gravity before and now. */
export const alcoholFromGravities = defineReckoning({
  id: 'alcoholFromGravities',
  group: 'strength',
  fields: [
    needed('originalGravity', 'gravity', null, { low: 0.98, high: 1.2 }),
    needed('presentGravity', 'gravity', 'gravity', { low: 0.98, high: 1.2 }),
    choice('measuredBy', ['hydrometer', 'hydrometerNarrow']),
    uncertaintyOf('gravity', { unit: 'SG', high: 0.02 }),
  ],
  says: {
    answers: ['alcohol', 'alcoholBalling', 'gravityLost'],
    steps: ['gravityLost', 'exciseAlcohol', 'ballingAlcohol'],
    cautions: ['gravityTellsNothingOfVinegar', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: ['gravityRose'],
  },
  standsFor: { dropPoints: 'presentGravity' },
  reckon({ originalGravity, presentGravity, measuredBy, gravityUncertainty }) {
    if (presentGravity > originalGravity) {
      return impossible('gravityRose', { originalGravity, presentGravity });
    }
    const original = measured(originalGravity, measuredBy, gravityUncertainty);
    const present = measured(presentGravity, measuredBy, gravityUncertainty);
    const points = (originalGravity - presentGravity) * 1000;
    const factor = exciseFactor(points);
    if (!factor.ok) return factor;
    const alcohol = byExcise({ originalGravity, presentGravity });
    if (!alcohol.ok) return alcohol;
    // The factor steps from band to band; it is held while the readings move within their error.
    const pointsUncertainty = Math.hypot(original.uncertainty, present.uncertainty) * 1000;
    const { defaultAbsolute, floorAbsolute } = METHOD_ERRORS.alcoholFromGravities;
    const uncertainty = Math.max(
      Math.hypot(floorAbsolute, factor.value * pointsUncertainty),
      measuredBy === 'hydrometer' ? defaultAbsolute : 0,
    );
    const [originalExtract, apparentExtract] = [
      gravityToBrix(originalGravity),
      gravityToBrix(presentGravity),
    ];
    const balling =
      originalExtract.ok && apparentExtract.ok
        ? alcoholByVolume({
            originalExtract: originalExtract.value,
            apparentExtract: apparentExtract.value,
          })
        : null;
    return ok({
      answers: [
        answer('alcohol', { value: alcohol.value, uncertainty }, 'alcohol'),
        ...(balling?.ok ? [answer('alcoholBalling', { value: balling.value, uncertainty }, 'alcohol')] : []),
        answer('gravityLost', { value: points, uncertainty: pointsUncertainty }, 'points'),
      ],
      steps: [
        step(
          'gravityLost',
          `1000 × (${gravityFigure(originalGravity)} − ${gravityFigure(presentGravity)})`,
          points,
          'points',
          'definition',
        ),
        step('exciseAlcohol', `${figure(points)} × ${figure(factor.value)}`, alcohol.value, '% vol', SOURCE),
        ...(balling?.ok && originalExtract.ok && apparentExtract.ok
          ? [
              step(
                'ballingAlcohol',
                `from ${figure(originalExtract.value)} °P to ${figure(apparentExtract.value)} °P by (OE − RE) ÷ (2.0665 − 0.010665 OE)`,
                balling.value,
                '% vol',
                BALLING_SOURCE,
              ),
            ]
          : []),
      ],
      cautions: ['worksOutNotMeasured', 'gravityTellsNothingOfVinegar', ...errorCaution(original, present)],
    });
  },
});
