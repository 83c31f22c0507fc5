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
  contraction: 'less, as alcohol and water fill less together than apart',
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

/** Where the book cannot know what strong spirit and something unmeasured fill together; null where it can. */
export function sayAsAdded(plan: Plan): string | null {
  return plan.asAdded.length === 0
    ? null
    : 'The volume is as added: strong spirit shrinks as it mixes, by how much depends on what was never measured here. A level reading settles the rest.';
}
