import { mapOk, ok } from '../base/result.ts';
import { saltPercentOfTotal } from '../brine/brine-strength.ts';
import { saltForTotal } from '../brine/equilibrium-salt.ts';
import { answer, step, UG_PER_GRAM } from './answer.ts';
import { asked, defineReckoning } from './define-reckoning.ts';
import { choice, needed, usually, when } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';
import { saltCautions } from './salt-cautions.ts';

const SOURCE = 'mass balance at equilibrium';

/** Salt by weight of vegetables, water and salt together; or what a weighed salting comes to. */
export const equilibriumSalt = defineReckoning({
  id: 'equilibriumSalt',
  group: 'brine',
  carriesOut: 'addSalt',
  amountAnswer: 'salt',
  fields: [
    choice('lookFor', ['saltToWeigh', 'whatItComesTo']),
    needed('vegetablesUg', 'mass', null, { low: 1_000_000 }),
    usually('waterUg', 'mass', 0),
    when('lookFor', ['saltToWeigh'], usually('targetPercent', 'salt', 2.5, null, { high: 15 })),
    when('lookFor', ['whatItComesTo'], needed('saltUg', 'mass')),
  ],
  says: {
    answers: ['salt', 'saltOfTotal'],
    steps: ['saltForTotal', 'saltOfTotal'],
    cautions: ['saltTooLow', 'saltOutsideUsual', 'brineAloneIsNotSafety', 'errorTakenFromMethod'],
    reasons: [],
  },
  standsFor: {
    vegetableGrams: 'vegetablesUg',
    waterGrams: 'waterUg',
    saltGrams: 'saltUg',
    total: 'vegetablesUg',
    percentOfTotal: 'targetPercent',
  },
  reckon(values) {
    const vegetables = measured(values.vegetablesUg / UG_PER_GRAM, 'kitchenScale');
    const water = weighed(values.waterUg);
    if (values.lookFor === 'saltToWeigh') {
      const percentOfTotal = asked(values.targetPercent);
      const found = propagateEach(
        ['salt'],
        (part: Readonly<Record<'vegetables' | 'water', number>>) =>
          mapOk(
            saltForTotal({ vegetableGrams: part.vegetables, waterGrams: part.water, percentOfTotal }),
            (salt) => ({ salt }),
          ),
        { vegetables, water },
      );
      if (!found.ok) return found;
      const { salt } = found.value;
      return ok({
        answers: [
          answer('salt', salt, 'mass', { times: UG_PER_GRAM, limit: 'upper' }),
          answer('saltOfTotal', percentOfTotal, 'salt'),
        ],
        steps: [
          step(
            'saltForTotal',
            `(${figure(vegetables.value)} g + ${figure(water.value)} g) × ${figure(percentOfTotal)} ÷ (100 − ${figure(percentOfTotal)})`,
            salt.value,
            'g',
            SOURCE,
          ),
        ],
        cautions: [...saltCautions(percentOfTotal, 0), ...errorCaution(vegetables, water)],
      });
    }
    const salt = weighed(asked(values.saltUg));
    const found = propagateEach(
      ['percent'],
      (part: Readonly<Record<'vegetables' | 'water' | 'salt', number>>) =>
        mapOk(
          saltPercentOfTotal({
            saltGrams: part.salt,
            waterGrams: part.water,
            vegetableGrams: part.vegetables,
          }),
          (percent) => ({ percent }),
        ),
      { vegetables, water, salt },
    );
    if (!found.ok) return found;
    const { percent } = found.value;
    return ok({
      answers: [answer('saltOfTotal', percent, 'salt', { limit: 'lower' })],
      steps: [
        step(
          'saltOfTotal',
          `100 × ${figure(salt.value)} ÷ (${figure(salt.value)} + ${figure(water.value)} + ${figure(vegetables.value)})`,
          percent.value,
          '%',
          SOURCE,
        ),
      ],
      cautions: [
        ...saltCautions(percent.value, percent.uncertainty),
        ...errorCaution(vegetables, water, salt),
      ],
    });
  },
});

/** Grams from a kitchen scale; none is exactly none. */
function weighed(massUg: number) {
  return massUg === 0
    ? { value: 0, uncertainty: 0, fromMethod: false }
    : measured(massUg / UG_PER_GRAM, 'kitchenScale');
}
