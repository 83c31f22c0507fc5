import { defineReckoning } from './define-reckoning.ts';
import { choice } from './fields.ts';
import { sweeten, sweetenFields, SWEETEN_SAYS, SWEETEN_STANDS_FOR } from './sweeten.ts';

/** Sugar that lifts a juice to a gravity, or to the alcohol it is to reach. */
export const sugarToAdd = defineReckoning({
  id: 'sugarToAdd',
  group: 'must',
  carriesOut: 'addSugar',
  amountAnswer: 'sweetener',
  fields: [...sweetenFields('apple'), choice('sugar', ['sucrose', 'glucose'])],
  says: SWEETEN_SAYS,
  standsFor: SWEETEN_STANDS_FOR,
  reckon: ({ sugar, ...aim }) => sweeten({ ...aim, sweetener: sugar }),
});
