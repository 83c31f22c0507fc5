import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { sayVolume } from './quantity-words.ts';

/** Whether a vessel can take from another, and the words for it. */
export interface Fit {
  readonly suits: boolean;
  readonly words: string;
  /** The same as short as a ticket allows. */
  readonly ticket: string;
}

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>;

/** What moving the liquid of one vessel into another would meet: room for all, for part, or none. */
export function transferFit(from: ShelfRow, to: ShelfRow, rules: Rules): Fit {
  if (from.vesselId === to.vesselId) return { suits: false, words: 'The same vessel', ticket: 'from here' };
  if (from.stage === 'empty') return { suits: false, words: 'Nothing to transfer', ticket: '' };
  const roomUl = Math.max(0, to.capacityUl - to.volumeUl);
  if (roomUl === 0) return { suits: false, words: 'Full: no room', ticket: 'full' };
  const room = sayVolume(roomUl, rules);
  const ticket = `${room} free`;
  if (roomUl >= from.volumeUl) return { suits: true, words: `${ticket}: transfer here`, ticket };
  return { suits: true, words: `Holds ${room} of ${sayVolume(from.volumeUl, rules)}`, ticket };
}
