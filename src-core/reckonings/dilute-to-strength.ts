import { ok } from '../base/result.ts';
import { diluteToStrength as dilute } from '../acid/safe-dilution.ts';
import { propagate } from '../quantities/propagate.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { ACIDITY_METHODS, choice, needed, numberOptional, uncertaintyOf, usually } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured } from './measured.ts';

const SOURCE = 'mass balance c₁V₁ = c₂V₂';
const GUARD = 'safety rules, section 3: safe-side dilution';

/** Water for a vinegar that must not fall below a strength, however wrong the readings are within their error. */
export const diluteToStrength = defineReckoning({
  id: 'diluteToStrength',
  group: 'acid',
  carriesOut: 'addWater',
  amountAnswer: 'waterGuaranteed',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl'),
    needed('acidityGramsPer100Ml', 'acidity', 'acidity'),
    usually('targetGramsPer100Ml', 'acidity', 5, null, { low: 0.1 }),
    choice('measuredBy', ACIDITY_METHODS),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
    numberOptional('volumeUncertaintyPercent', { unit: '%', low: 0, high: 50 }),
  ],
  says: {
    answers: ['waterGuaranteed', 'waterNaive', 'expectedAcidity', 'volumeAfter'],
    steps: ['waterNaive', 'acidityLowEnd', 'volumeLowEnd', 'waterGuaranteed', 'expectedAcidity'],
    cautions: ['measureAgainAfterWater', 'neverForCanning', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: ['tooWeakToDilute'],
  },
  standsFor: {
    volumeLitres: 'volumeUl',
    volumeUncertaintyLitres: 'volumeUncertaintyPercent',
    strength: 'acidityGramsPer100Ml',
    strengthUncertainty: 'acidityUncertainty',
    target: 'targetGramsPer100Ml',
  },
  reckon(values) {
    const volumeLitres = values.volumeUl / UL_PER_LITRE;
    const given = values.volumeUncertaintyPercent;
    const volume = measured(volumeLitres, 'jugOrMark', given === null ? null : (given / 100) * volumeLitres);
    const strength = measured(values.acidityGramsPer100Ml, values.measuredBy, values.acidityUncertainty);
    const target = values.targetGramsPer100Ml;
    const diluted = dilute({
      volumeLitres,
      volumeUncertaintyLitres: volume.uncertainty,
      strength: strength.value,
      strengthUncertainty: strength.uncertainty,
      target,
    });
    if (!diluted.ok) {
      if (diluted.error.type !== 'TooWeakToDilute') return { ok: false, error: diluted.error };
      const { lowEnd } = diluted.error;
      return impossible('tooWeakToDilute', { lowEnd, target, strength: strength.value });
    }
    const { naiveWaterLitres, guaranteedWaterLitres: water, expectedAfter } = diluted.value;
    const after = propagate(
      (part: Readonly<Record<'strength' | 'volume', number>>) =>
        ok(part.volume + water === 0 ? part.strength : (part.strength * part.volume) / (part.volume + water)),
      { strength, volume },
    );
    const lowEnd = strength.value - strength.uncertainty;
    const lowVolume = volumeLitres - volume.uncertainty;
    return ok({
      answers: [
        answer('waterGuaranteed', water, 'volume', { times: UL_PER_LITRE, limit: 'lower' }),
        answer('waterNaive', naiveWaterLitres, 'volume', { times: UL_PER_LITRE, limit: 'lower' }),
        answer(
          'expectedAcidity',
          { value: expectedAfter, uncertainty: after.ok ? after.value.uncertainty : strength.uncertainty },
          'acidity',
          { limit: 'lower' },
        ),
        answer('volumeAfter', { value: volumeLitres + water, uncertainty: volume.uncertainty }, 'volume', {
          times: UL_PER_LITRE,
        }),
      ],
      steps: [
        step(
          'waterNaive',
          `${figure(volumeLitres)} L × (${figure(strength.value)} ÷ ${figure(target)} − 1)`,
          naiveWaterLitres,
          'L',
          SOURCE,
        ),
        step(
          'acidityLowEnd',
          `${figure(strength.value)} − ${figure(strength.uncertainty)}`,
          lowEnd,
          'g/100 mL',
          GUARD,
        ),
        step(
          'volumeLowEnd',
          `${figure(volumeLitres)} − ${figure(volume.uncertainty)}`,
          lowVolume,
          'L',
          GUARD,
        ),
        step(
          'waterGuaranteed',
          `${figure(lowVolume)} L × (${figure(lowEnd)} ÷ ${figure(target)} − 1)`,
          water,
          'L',
          GUARD,
        ),
        step(
          'expectedAcidity',
          `${figure(strength.value)} × ${figure(volumeLitres)} ÷ (${figure(volumeLitres)} + ${figure(water)})`,
          expectedAfter,
          'g/100 mL',
          SOURCE,
        ),
      ],
      cautions: [
        'measureAgainAfterWater',
        'neverForCanning',
        'worksOutNotMeasured',
        ...errorCaution(strength, volume),
      ],
    });
  },
});
