import { ok } from '../base/result.ts';
import {
  expectedYield as expected,
  JUICE_PER_KILOGRAM,
  STEP_LOSS,
  type LossStep,
  type PressedFruit,
  type Spread,
} from '../must/expected-yield.ts';
import { FOAM_HEADSPACE } from '../safety/rules/pressure.ts';
import { answer, step, UG_PER_KILOGRAM, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { defineReckoning } from './define-reckoning.ts';
import { choice, needed, numberOptional, numberUsually, optional, usually } from './fields.ts';
import { figure } from './figure.ts';

/** Fruits whose juice yield is given. */
export const PRESSED_FRUITS = [
  'apple',
  'pear',
  'quince',
  'grape',
  'plum',
  'berry',
  'pineapple',
  'other',
] as const satisfies readonly PressedFruit[];

const SOURCE = 'common practice, no source';
const STEPS: Readonly<Record<'juice' | 'wine' | 'vinegar', readonly LossStep[]>> = {
  juice: [],
  wine: ['grossLees', 'racking'],
  vinegar: ['grossLees', 'racking', 'acetification'],
};
const STEP_NAMES = {
  grossLees: 'afterGrossLees',
  racking: 'afterRacking',
  acetification: 'afterAcetification',
  filtering: 'afterFiltering',
} as const satisfies Record<LossStep, string>;

/** From kilograms of fruit to litres on the shelf, bottles, and the vessels that it takes. */
export const expectedYield = defineReckoning({
  id: 'expectedYield',
  group: 'fruitToShelf',
  fields: [
    choice('fruit', PRESSED_FRUITS),
    needed('massUg', 'mass'),
    choice('makeInto', ['vinegar', 'wine', 'juice']),
    choice('filtered', ['no', 'yes']),
    usually('bottleUl', 'volume', 750_000, null, { low: 10_000, high: 100_000_000 }),
    optional('vesselUl', 'volume', null, { low: 10_000 }),
    numberOptional('vesselsFree', { unit: 'vessels', low: 0, high: 100_000 }),
    numberUsually('headspacePercent', FOAM_HEADSPACE, { unit: '%', low: 0, high: 90 }),
  ],
  says: {
    answers: ['juiceVolume', 'shelfVolume', 'bottles', 'vesselsNeeded', 'vesselsShort', 'volumeWithoutRoom'],
    steps: [
      'juiceFromFruit',
      'afterGrossLees',
      'afterRacking',
      'afterAcetification',
      'afterFiltering',
      'wholeBottles',
      'vesselsNeeded',
    ],
    cautions: ['noMouldyFruit', 'commonPracticeFigures', 'leaveRoomForFoam'],
    reasons: [],
  },
  standsFor: { kilograms: 'massUg', bottleMl: 'bottleUl' },
  reckon(values) {
    const { fruit, makeInto, filtered, bottleUl, vesselUl, vesselsFree, headspacePercent } = values;
    const kilograms = values.massUg / UG_PER_KILOGRAM;
    const found = expected({
      fruit,
      kilograms,
      steps: [...STEPS[makeInto], ...(filtered === 'yes' ? (['filtering'] as const) : [])],
      bottleMl: bottleUl / 1000,
    });
    if (!found.ok) return found;
    const { juiceLitres, afterSteps, litres, bottles } = found.value;
    const room = vesselUl === null ? null : (vesselUl / UL_PER_LITRE) * (1 - headspacePercent / 100);
    const vessels =
      room === null
        ? null
        : { low: Math.ceil(juiceLitres.low / room), high: Math.ceil(juiceLitres.high / room) };
    const free = vessels === null ? null : vesselsFree;
    const perKilogram = JUICE_PER_KILOGRAM[fruit];
    let before = juiceLitres;
    return ok({
      answers: [
        answer('juiceVolume', juiceLitres.mid, 'volume', { times: UL_PER_LITRE, range: juiceLitres }),
        ...(afterSteps.length === 0
          ? []
          : [answer('shelfVolume', litres.mid, 'volume', { times: UL_PER_LITRE, range: litres })]),
        answer('bottles', Math.floor((litres.mid * UL_PER_LITRE) / bottleUl), 'bottles', { range: bottles }),
        ...(vessels === null
          ? []
          : [answer('vesselsNeeded', vessels.high, 'vessels', { limit: 'upper', range: vessels })]),
        ...(vessels === null || free === null
          ? []
          : [
              answer('vesselsShort', Math.max(0, vessels.high - Math.floor(free)), 'vessels', {
                limit: 'upper',
                range: {
                  low: Math.max(0, vessels.low - Math.floor(free)),
                  high: Math.max(0, vessels.high - Math.floor(free)),
                },
              }),
            ]),
        ...(room === null || free === null
          ? []
          : [
              answer('volumeWithoutRoom', homeless(juiceLitres.high, room, free), 'volume', {
                times: UL_PER_LITRE,
                limit: 'upper',
                range: {
                  low: homeless(juiceLitres.low, room, free),
                  high: homeless(juiceLitres.high, room, free),
                },
              }),
            ]),
      ],
      steps: [
        step(
          'juiceFromFruit',
          `${figure(kilograms)} kg × ${figure(perKilogram.low)} to ${figure(perKilogram.high)} L/kg`,
          juiceLitres.mid,
          'L',
          SOURCE,
        ),
        ...afterSteps.map((lost) => {
          const loss = STEP_LOSS[lost.step];
          const line = step(
            STEP_NAMES[lost.step],
            `${between(before)} L less ${figure(loss.low * 100)} to ${figure(loss.high * 100)} %: ${between(lost.litres)} L`,
            lost.litres.mid,
            'L',
            SOURCE,
          );
          before = lost.litres;
          return line;
        }),
        step(
          'wholeBottles',
          `${between(litres)} L ÷ ${figure(bottleUl / UL_PER_LITRE)} L, whole ones`,
          Math.floor((litres.mid * UL_PER_LITRE) / bottleUl),
          'bottles',
          'division',
        ),
        ...(vessels === null || room === null
          ? []
          : [
              step(
                'vesselsNeeded',
                `${figure(juiceLitres.high)} L ÷ ${figure(room)} L that each may hold`,
                vessels.high,
                'vessels',
                'room for foam is common practice',
              ),
            ]),
      ],
      cautions: [
        'noMouldyFruit',
        'commonPracticeFigures',
        ...cautionIf(makeInto !== 'juice', 'leaveRoomForFoam'),
      ],
    });
  },
});

function between({ low, high }: Spread): string {
  return `${figure(low)} to ${figure(high)}`;
}

/** Litres that find no place when so many free vessels are filled as far as they may be. */
function homeless(litres: number, roomLitres: number, vesselsFree: number): number {
  return Math.max(0, litres - Math.floor(vesselsFree) * roomLitres);
}
