import { defineReckoning } from './define-reckoning.ts';
import { choice } from './fields.ts';
import { sweeten, sweetenFields, SWEETEN_STANDS_FOR, SWEETEN_STEPS } from './sweeten.ts';

/** Sugar that lifts a juice to a gravity, or to the alcohol it is to reach. */
export const sugarToAdd = defineReckoning({
  id: 'sugarToAdd',
  group: 'must',
  carriesOut: 'addSugar',
  amountAnswer: 'sweetener',
  fields: [...sweetenFields('apple'), choice('sugar', ['sucrose', 'glucose'])],
  says: {
    answers: ['sweetener', 'volumeAfter', 'gravityAfter'],
    steps: SWEETEN_STEPS,
    cautions: [
      'plansAreRanges',
      'brixIsNotSugar',
      'addSugarInParts',
      'honeyNotForInfants',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: ['noSugarBelowWater', 'alreadySweeter', 'alreadyStrongEnough'],
  },
  standsFor: { ...SWEETEN_STANDS_FOR, targetBrix: 'targetGravity' },
  reckon: ({ sugar, ...aim }) => sweeten({ ...aim, sweetener: sugar }),
});
