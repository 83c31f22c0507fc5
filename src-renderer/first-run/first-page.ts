import type { FirstShelves } from '#core/contract/cellar.ts';
import { HOUSE_RULES_AT_FIRST, type HouseRules } from '#core/contract/house-rules.ts';
import type { z } from 'zod';

export type FirstPage = {
  name: string;
  volume: string;
  temperature: string;
  placeName: string;
  shelfCount: string;
  positions: string;
};

export type FirstField = 'name' | 'placeName' | 'shelfCount' | 'positions';

export interface FirstInput {
  readonly name: string;
  readonly houseRules: HouseRules;
  readonly shelves: z.infer<typeof FirstShelves> | null;
}

export type FirstReading =
  | { readonly type: 'ready'; readonly input: FirstInput }
  | { readonly type: 'wrong'; readonly errors: Partial<Record<FirstField, string>> };

const SHELVES_MAX = 40;
const POSITIONS_MAX = 200;
const NAME_MAX = 120;

/** Lands that measure kitchen volumes in US customary units, and warmth in Fahrenheit. Common practice, no source. */
const US_MEASURES = /-(?:US|LR|MM)$/u;
const FAHRENHEIT = /-(?:US|LR|KY|BS|BZ|PW|FM|MH)$/u;

/** The page as it first lies there, with the measures of the system's own language and region. */
export function firstPageFor(language: string): FirstPage {
  return {
    name: 'Home cellar',
    volume: US_MEASURES.test(language) ? 'us' : 'metric',
    temperature: FAHRENHEIT.test(language) ? 'F' : 'C',
    placeName: 'Pantry',
    shelfCount: '3',
    positions: '8',
  };
}

/** Reads the page. No number of shelves, or none of them, begins without any. */
export function readFirstPage(page: FirstPage): FirstReading {
  const errors: Partial<Record<FirstField, string>> = {};
  const name = readName(page.name, 'the cellar', errors, 'name');
  const count = page.shelfCount.trim();
  const withoutShelves = count === '' || /^0+$/u.test(count);
  const shelfCount = withoutShelves ? 0 : readWhole(count, SHELVES_MAX, 'shelves', errors, 'shelfCount');
  const positions = withoutShelves
    ? 0
    : readWhole(page.positions, POSITIONS_MAX, 'places on a shelf', errors, 'positions');
  const placeName = withoutShelves ? '' : readName(page.placeName, 'the place', errors, 'placeName');
  if (Object.keys(errors).length > 0) return { type: 'wrong', errors };
  return {
    type: 'ready',
    input: {
      name,
      houseRules: {
        ...HOUSE_RULES_AT_FIRST,
        volume: page.volume === 'us' ? 'us' : 'metric',
        temperature: page.temperature === 'F' ? 'F' : 'C',
      },
      shelves: withoutShelves ? null : { placeName, shelfCount, positions },
    },
  };
}

/** What the numbers come to: `3 shelves of 8 places, lettered A to C`. Null while they are not plain numbers. */
export function sayShelves(page: Pick<FirstPage, 'shelfCount' | 'positions'>): string | null {
  const shelves = Number(page.shelfCount.trim() === '' ? '0' : page.shelfCount);
  const positions = Number(page.positions);
  if (!Number.isInteger(shelves) || shelves < 0 || shelves > SHELVES_MAX) return null;
  if (shelves === 0) return 'No shelves yet; they can be put up later.';
  if (!Number.isInteger(positions) || positions < 1 || positions > POSITIONS_MAX) return null;
  const places = positions === 1 ? '1 place' : `${positions} places`;
  return shelves === 1 ? `1 shelf of ${places}.` : `${shelves} shelves of ${places}.`;
}

function readName(
  text: string,
  what: string,
  errors: Partial<Record<FirstField, string>>,
  field: FirstField,
): string {
  const name = text.trim();
  if (name === '') errors[field] = `Say what ${what} is called.`;
  else if ([...name].length > NAME_MAX)
    errors[field] = `A name has at most ${NAME_MAX} signs; this one has ${[...name].length}.`;
  return name;
}

function readWhole(
  text: string,
  max: number,
  what: string,
  errors: Partial<Record<FirstField, string>>,
  field: FirstField,
): number {
  const digits = text.trim();
  const number = /^[0-9]{1,6}$/u.test(digits) ? Number(digits) : Number.NaN;
  if (Number.isNaN(number)) errors[field] = `“${digits}” is not a whole number. Give 1 to ${max} ${what}.`;
  else if (number < 1 || number > max) errors[field] = `Give 1 to ${max} ${what}; ${number} is outside that.`;
  return number;
}
