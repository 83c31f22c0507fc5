import { SALT } from '../safety/rules/brined-vegetables.ts';
import { cautionIf } from './cautions.ts';

/** What rule VEG-03 has to say of a percentage of the whole, held at its low end where that is the worse one. */
export function saltCautions(percentOfTotal: number, uncertainty: number) {
  const low = percentOfTotal - uncertainty;
  return [
    ...cautionIf(low < SALT.floor, 'saltTooLow'),
    ...cautionIf(
      low >= SALT.floor && (low < SALT.low || percentOfTotal + uncertainty > SALT.high),
      'saltOutsideUsual',
    ),
    'brineAloneIsNotSafety' as const,
  ];
}
