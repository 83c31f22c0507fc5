import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { sayVolume } from './quantity-words.ts';

/** Whether a vessel can take from another, and the words for it. */
export interface Fit {
  readonly suits: boolean;
  readonly words: string;
}

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>;

/** What moving the liquid of one vessel into another would meet: room for all, for part, or none. */
export function transferFit(from: ShelfRow, to: ShelfRow, rules: Rules): Fit {
  if (from.vesselId === to.vesselId) return { suits: false, words: 'The same vessel' };
  if (from.stage === 'empty') return { suits: false, words: 'Nothing to transfer' };
  const roomUl = Math.max(0, to.capacityUl - to.volumeUl);
  if (roomUl === 0) return { suits: false, words: 'Full: no room' };
  if (roomUl >= from.volumeUl)
    return { suits: true, words: `${sayVolume(roomUl, rules)} free: transfer here` };
  return {
    suits: true,
    words: `Holds ${sayVolume(roomUl, rules)} of ${sayVolume(from.volumeUl, rules)}`,
  };
}
