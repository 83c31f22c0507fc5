import { defineReckoning } from './define-reckoning.ts';
import { sweeten, sweetenFields, SWEETEN_SAYS, SWEETEN_STANDS_FOR } from './sweeten.ts';

/** Honey that lifts a must to a gravity, or to the alcohol it is to reach. */
export const honeyToAdd = defineReckoning({
  id: 'honeyToAdd',
  group: 'must',
  carriesOut: 'addHoney',
  amountAnswer: 'sweetener',
  fields: sweetenFields('honey'),
  says: SWEETEN_SAYS,
  standsFor: SWEETEN_STANDS_FOR,
  reckon: (aim) => sweeten({ ...aim, sweetener: 'honey' }),
});
