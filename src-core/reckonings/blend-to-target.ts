import { ok } from '../base/result.ts';
import { blend, litresToReachStrength, pearsonParts } from '../must/blend.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { asked, defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, when } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, exact, measured, propagateEach } from './measured.ts';

/** How much of a second liquid goes into the first to reach an acidity or a strength between theirs. */
export const blendToTarget = defineReckoning({
  id: 'blendToTarget',
  group: 'strength',
  fields: [
    choice('aimFor', ['acidity', 'alcohol']),
    needed('volumeUl', 'volume', 'volumeUl', { low: 1000 }),
    when('aimFor', ['acidity'], needed('firstGramsPer100Ml', 'acidity', 'acidity')),
    when('aimFor', ['acidity'], needed('secondGramsPer100Ml', 'acidity')),
    when('aimFor', ['acidity'], needed('targetGramsPer100Ml', 'acidity')),
    when('aimFor', ['alcohol'], needed('firstPercentVol', 'alcohol', 'alcohol')),
    when('aimFor', ['alcohol'], needed('secondPercentVol', 'alcohol')),
    when('aimFor', ['alcohol'], needed('targetPercentVol', 'alcohol')),
  ],
  says: {
    answers: ['secondVolume', 'volumeAfter'],
    steps: ['partsByPearson', 'secondVolume', 'secondForStrength'],
    cautions: ['worksOutNotMeasured', 'neverForCanning', 'errorTakenFromMethod'],
    reasons: ['targetOutsideBoth'],
  },
  standsFor: {
    firstLitres: 'volumeUl',
    volumeLitres: 'volumeUl',
    alcoholPercentVol: 'firstPercentVol',
    acidityGramsPer100Ml: 'firstGramsPer100Ml',
    target: 'targetGramsPer100Ml',
  },
  reckon(values) {
    const sour = values.aimFor === 'acidity';
    const first = asked(sour ? values.firstGramsPer100Ml : values.firstPercentVol);
    const second = asked(sour ? values.secondGramsPer100Ml : values.secondPercentVol);
    const target = asked(sour ? values.targetGramsPer100Ml : values.targetPercentVol);
    // The second's own value is reached only by endless amounts of it.
    const between = first < second ? target >= first && target < second : target <= first && target > second;
    if (!between) return impossible('targetOutsideBoth', { first, second, target });
    const volume = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark');
    const method = sour ? 'taSyringeKit' : 'alcoholFromGravities';
    const known = (value: number) => (value === 0 ? exact(0) : measured(value, method));
    const inputs = { volume, first: known(first), second: known(second) };
    const found = propagateEach(
      ['litres'],
      (part: Readonly<Record<'volume' | 'first' | 'second', number>>) => {
        const litres = sour
          ? bySquare({ ...part, target })
          : litresToReachStrength({
              firstLitres: part.volume,
              firstPercentVol: part.first,
              secondPercentVol: part.second,
              targetPercentVol: target,
            });
        return litres.ok ? ok({ litres: litres.value }) : litres;
      },
      inputs,
    );
    if (!found.ok) return found;
    const { litres } = found.value;
    const whole = blend([
      { volumeLitres: volume.value, ...liquid(sour, first) },
      { volumeLitres: litres.value, ...liquid(sour, second) },
    ]);
    if (!whole.ok) return whole;
    const square = sour ? pearsonParts({ first, second, target }) : null;
    return ok({
      answers: [
        answer('secondVolume', litres, 'volume', { times: UL_PER_LITRE }),
        answer('volumeAfter', whole.value.volumeLitres, 'volume', { times: UL_PER_LITRE }),
      ],
      steps: square?.ok
        ? [
            step(
              'partsByPearson',
              `|${figure(target)} − ${figure(second)}| to |${figure(first)} − ${figure(target)}|: ${figure(square.value.first)} parts to ${figure(square.value.second)}`,
              square.value.second / square.value.first,
              'parts to one',
              'Pearson’s square',
            ),
            step(
              'secondVolume',
              `${figure(volume.value)} L × ${figure(square.value.second)} ÷ ${figure(square.value.first)}`,
              litres.value,
              'L',
              'mass balance, volumes additive',
            ),
          ]
        : [
            step(
              'secondForStrength',
              `litres of ${figure(second)} % vol that bring ${figure(volume.value)} L of ${figure(first)} % vol to ${figure(target)} % vol, by mass`,
              litres.value,
              'L',
              'mass balance over OIML R 22',
            ),
          ],
      cautions: [
        'worksOutNotMeasured',
        ...(sour ? (['neverForCanning'] as const) : []),
        ...errorCaution(...Object.values(inputs)),
      ],
    });
  },
});

function bySquare(given: {
  readonly volume: number;
  readonly first: number;
  readonly second: number;
  readonly target: number;
}) {
  const parts = pearsonParts(given);
  return parts.ok ? ok((given.volume * parts.value.second) / parts.value.first) : parts;
}

function liquid(sour: boolean, value: number) {
  return {
    alcoholPercentVol: sour ? 0 : value,
    acidityGramsPer100Ml: sour ? value : 0,
    sugarGramsPerLitre: 0,
  };
}
