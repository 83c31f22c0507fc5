import { ok } from '../base/result.ts';
import { SATURATED_PERCENT, saltForBrine } from '../brine/brine-strength.ts';
import { equilibriumSalt } from '../brine/equilibrium-salt.ts';
import { waterDensityBettin } from '../quantities/water-density.ts';
import { answer, step, UG_PER_GRAM } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { needed, numberUsually, optional, usually } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';
import { saltCautions } from './salt-cautions.ts';

/** Salt for a brine, and what that brine comes to once it has spread through the vegetables. */
export const brineStrength = defineReckoning({
  id: 'brineStrength',
  group: 'brine',
  carriesOut: 'addSalt',
  amountAnswer: 'salt',
  fields: [
    needed('waterUl', 'volume', 'volumeUl', { low: 1000 }),
    usually('brinePercent', 'salt', 5, null, { high: SATURATED_PERCENT }),
    optional('vegetablesUg', 'mass'),
    // Cabbage, by USDA SR Legacy from memory; cucumber is about 95.
    numberUsually('vegetableWaterPercent', 92, { unit: '%', low: 50, high: 98 }),
  ],
  says: {
    answers: ['salt', 'saltOfTotal', 'saltOfLiquid'],
    steps: ['waterGrams', 'saltForBrine', 'saltOfTotal', 'saltOfLiquid'],
    cautions: [
      'percentOfWaterIsNotOfTheWhole',
      'saltTooLow',
      'saltOutsideUsual',
      'brineAloneIsNotSafety',
      'errorTakenFromMethod',
    ],
    reasons: [],
  },
  standsFor: {
    waterGrams: 'waterUl',
    saltPercent: 'brinePercent',
    brineGrams: 'waterUl',
    vegetableGrams: 'vegetablesUg',
    vegetableWaterShare: 'vegetableWaterPercent',
  },
  reckon(values) {
    const { brinePercent, vegetablesUg } = values;
    const gramsPerMicrolitre = waterDensityBettin(20) * 1e-6;
    const water = measured(values.waterUl * gramsPerMicrolitre, 'jugOrMark');
    const made = propagateEach(
      ['salt'],
      (part: { readonly water: number }) => {
        const salt = saltForBrine({ waterGrams: part.water, saltPercent: brinePercent });
        return salt.ok ? ok({ salt: salt.value }) : salt;
      },
      { water },
    );
    if (!made.ok) return made;
    const { salt } = made.value;
    const madeSteps = [
      step(
        'waterGrams',
        `${figure(values.waterUl / 1000)} ml × ${figure(waterDensityBettin(20) / 1000)} g/mL`,
        water.value,
        'g',
        'Bettin and Spieweck 1990, 20 °C',
      ),
      step(
        'saltForBrine',
        `${figure(water.value)} × ${figure(brinePercent)} ÷ (100 − ${figure(brinePercent)})`,
        salt.value,
        'g',
        'mass balance',
      ),
    ] as const;
    const amount = answer('salt', salt, 'mass', { times: UG_PER_GRAM });
    if (vegetablesUg === null) {
      return ok({
        answers: [amount],
        steps: madeSteps,
        cautions: ['percentOfWaterIsNotOfTheWhole', 'brineAloneIsNotSafety', ...errorCaution(water)],
      });
    }
    const vegetables = measured(vegetablesUg / UG_PER_GRAM, 'kitchenScale');
    const rested = propagateEach(
      ['percentOfTotal', 'percentOfLiquid'],
      (part: Readonly<Record<'water' | 'vegetables', number>>) => {
        const added = saltForBrine({ waterGrams: part.water, saltPercent: brinePercent });
        if (!added.ok) return added;
        return equilibriumSalt({
          brineGrams: part.water + added.value,
          brinePercent,
          vegetableGrams: part.vegetables,
          vegetableWaterShare: values.vegetableWaterPercent / 100,
        });
      },
      { water, vegetables },
    );
    if (!rested.ok) return rested;
    const { percentOfTotal, percentOfLiquid } = rested.value;
    const [brine, greens] = [figure(water.value + salt.value), figure(vegetables.value)];
    return ok({
      answers: [
        amount,
        answer('saltOfTotal', percentOfTotal, 'salt', { limit: 'lower' }),
        answer('saltOfLiquid', percentOfLiquid, 'salt', { limit: 'lower' }),
      ],
      steps: [
        ...madeSteps,
        step(
          'saltOfTotal',
          `100 × ${figure(salt.value)} ÷ (${brine} + ${greens})`,
          percentOfTotal.value,
          '%',
          'mass balance at equilibrium',
        ),
        step(
          'saltOfLiquid',
          `100 × ${figure(salt.value)} ÷ (${brine} + ${figure(values.vegetableWaterPercent)} % of ${greens})`,
          percentOfLiquid.value,
          '%',
          'mass balance at equilibrium',
        ),
      ],
      cautions: [
        ...saltCautions(percentOfTotal.value, percentOfTotal.uncertainty),
        ...errorCaution(water, vegetables),
      ],
    });
  },
});
