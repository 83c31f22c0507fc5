import { defineReckoning } from './define-reckoning.ts';
import { sweeten, sweetenFields, SWEETEN_STANDS_FOR, SWEETEN_STEPS } from './sweeten.ts';

/** Honey that lifts a must to a gravity, or to the alcohol it is to reach. */
export const honeyToAdd = defineReckoning({
  id: 'honeyToAdd',
  group: 'must',
  carriesOut: 'addHoney',
  amountAnswer: 'sweetener',
  fields: sweetenFields('honey'),
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
  reckon: (aim) => sweeten({ ...aim, sweetener: 'honey' }),
});
