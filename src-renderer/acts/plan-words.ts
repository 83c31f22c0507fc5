import type { Plan } from '#core/contract/ledger.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { sayVolume } from '../words/quantity-words.ts';

const GOES: Readonly<Record<string, string>> = {
  lees: 'left behind as lees',
  drain: 'thrown out',
  drawn: 'drawn off',
  bottles: 'into bottles',
  samples: 'taken as a sample',
  air: 'gone into the air',
  loss: 'lost',
  unexplained: 'put right in the book',
};

/** What leaves the vessels for good, one phrase each: `200 ml left behind as lees`. */
export function sayLeaving(plan: Plan, house: HouseUnits): readonly string[] {
  return plan.outside.flatMap(({ account, deltaUl }) => {
    if (deltaUl === 0) return [];
    if (account === 'store') return [`${sayVolume(-deltaUl, house)} added from outside`];
    if (account === 'bottles' && deltaUl < 0) return [`${sayVolume(-deltaUl, house)} out of bottles`];
    const words = GOES[account];
    return words === undefined ? [] : [`${sayVolume(Math.abs(deltaUl), house)} ${words}`];
  });
}
