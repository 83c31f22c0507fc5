import { ok } from '../base/result.ts';
import {
  NITROGEN_HONEY_MUST,
  NITROGEN_IN_PHOSPHATE,
  NITROGEN_MINIMUM,
  NITROGEN_STRONG_MUST,
  phosphateForNitrogen,
} from '../must/yeast.ts';
import { answer, step, UG_PER_GRAM, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { asked, defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, numberNeeded, uncertaintyOf, when } from './fields.ts';
import { figure } from './figure.ts';
import { measured, propagateEach } from './measured.ts';

/** How far a nitrogen strays that was measured by a kit, or taken from the average of honey musts. Policy. */
const NITROGEN_RELATIVE_UNCERTAINTY = 0.1;

/** Food for the yeast: diammonium phosphate that lifts the nitrogen of a must to what yeast wants. */
export const nutrientDose = defineReckoning({
  id: 'nutrientDose',
  group: 'must',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl'),
    choice('nitrogenFrom', ['measured', 'honeyMust']),
    when(
      'nitrogenFrom',
      ['measured'],
      numberNeeded('nitrogenMgPerLitre', { unit: 'mg N/L', low: 0, high: 1000 }),
    ),
    choice('mustIs', ['ordinary', 'strong', 'ownTarget']),
    when('mustIs', ['ownTarget'], numberNeeded('targetMgPerLitre', { unit: 'mg N/L', low: 0, high: 400 })),
    uncertaintyOf('nitrogen', { unit: 'mg N/L', high: 200 }),
  ],
  says: {
    answers: ['phosphate', 'nitrogenShort'],
    steps: ['nitrogenShort', 'phosphate'],
    cautions: ['adviceOnly', 'nitrogenAboveMaximum'],
    reasons: ['enoughNitrogen'],
  },
  standsFor: { volumeLitres: 'volumeUl' },
  reckon(values) {
    const { nitrogenFrom, mustIs, nitrogenUncertainty } = values;
    const nitrogen = nitrogenFrom === 'honeyMust' ? NITROGEN_HONEY_MUST : asked(values.nitrogenMgPerLitre);
    const target = targetOf(mustIs, values.targetMgPerLitre);
    const volume = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark');
    if (nitrogen >= target.mid) return impossible('enoughNitrogen', { nitrogen, target: target.mid });
    const doseAt = (targetMgPerLitre: number, volumeLitres = volume.value, nitrogenMgPerLitre = nitrogen) =>
      phosphateForNitrogen({ volumeLitres, nitrogenMgPerLitre, targetMgPerLitre });
    const here = doseAt(target.mid);
    if (!here.ok) return here;
    const [least, most] = [doseAt(target.low), doseAt(target.high)];
    if (!least.ok) return least;
    if (!most.ok) return most;
    const found = propagateEach(
      ['grams', 'short'],
      (part: Readonly<Record<'volume' | 'nitrogen', number>>) => {
        const dose = doseAt(target.mid, part.volume, part.nitrogen);
        return dose.ok
          ? ok({ grams: dose.value.phosphateGrams, short: dose.value.nitrogenShortMgPerLitre })
          : dose;
      },
      {
        volume,
        nitrogen: {
          value: nitrogen,
          uncertainty: nitrogenUncertainty ?? nitrogen * NITROGEN_RELATIVE_UNCERTAINTY,
        },
      },
    );
    if (!found.ok) return found;
    const { grams, short } = found.value;
    const range = { low: least.value.phosphateGrams, high: most.value.phosphateGrams };
    return ok({
      answers: [
        answer('phosphate', grams, 'mass', {
          times: UG_PER_GRAM,
          range: target.low === target.high ? null : range,
        }),
        answer('nitrogenShort', short, 'mg/L'),
      ],
      steps: [
        step(
          'nitrogenShort',
          `${figure(target.mid)} − ${figure(nitrogen)}`,
          short.value,
          'mg/L',
          target.source,
        ),
        step(
          'phosphate',
          `${figure(short.value)} mg/L × ${figure(volume.value)} L ÷ 1000 ÷ ${figure(NITROGEN_IN_PHOSPHATE, 3)}`,
          grams.value,
          'g',
          'molar masses, IUPAC 2021',
        ),
      ],
      cautions: ['adviceOnly', ...cautionIf(here.value.aboveMaximum, 'nitrogenAboveMaximum')],
    });
  },
});

function targetOf(mustIs: 'ordinary' | 'strong' | 'ownTarget', own: number | null) {
  switch (mustIs) {
    case 'ordinary':
      return {
        low: NITROGEN_MINIMUM,
        mid: NITROGEN_MINIMUM,
        high: NITROGEN_MINIMUM,
        source: 'yeast-supplier note; probably Bely, Sablayrolles and Barre 1990',
      };
    case 'strong': {
      const { low, high } = NITROGEN_STRONG_MUST;
      return { low, mid: (low + high) / 2, high, source: 'oenology textbooks, from memory' };
    }
    case 'ownTarget': {
      const target = asked(own);
      return { low: target, mid: target, high: target, source: 'your own target' };
    }
  }
}
