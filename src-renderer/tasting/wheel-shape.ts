import {
  TASTE_GROUP_NAMES,
  TASTE_GROUPS,
  type TasteGroup,
  type TasteWord,
} from '#core/ledger/taste-words.ts';

/** A ring sector of the wheel: its outline, and where and how its word is written. */
export interface Sector {
  readonly path: string;
  readonly textX: number;
  readonly textY: number;
  /** Degrees the text is turned by, so that it runs outwards and is never upside down. */
  readonly turn: number;
}

export interface GroupSector extends Sector {
  readonly group: TasteGroup;
}

export interface WordSector extends Sector {
  readonly group: TasteGroup;
  readonly word: TasteWord;
}

/** The wheel is drawn in a square of this many units, its centre in the middle. */
export const WHEEL_SIZE = 400;
const CENTRE = WHEEL_SIZE / 2;
const HUB = 42;
const GROUPS_TO = 104;
const WORDS_TO = 196;

/** Every group as a sector as wide as its words, and every word around it, clockwise from the top. */
export function wheelShape(): {
  readonly groups: readonly GroupSector[];
  readonly words: readonly WordSector[];
} {
  const count = TASTE_GROUP_NAMES.reduce((sum, group) => sum + TASTE_GROUPS[group].length, 0);
  const step = 360 / count;
  const groups: GroupSector[] = [];
  const words: WordSector[] = [];
  let from = 0;
  for (const group of TASTE_GROUP_NAMES) {
    const begun = from;
    for (const word of TASTE_GROUPS[group]) {
      words.push({ group, word, ...sector(from, from + step, GROUPS_TO, WORDS_TO) });
      from += step;
    }
    groups.push({ group, ...sector(begun, from, HUB, GROUPS_TO) });
  }
  return { groups, words };
}

function sector(fromDegrees: number, toDegrees: number, inner: number, outer: number): Sector {
  const [a, b, c, d] = [
    at(fromDegrees, outer),
    at(toDegrees, outer),
    at(toDegrees, inner),
    at(fromDegrees, inner),
  ];
  const large = toDegrees - fromDegrees > 180 ? 1 : 0;
  const middle = (fromDegrees + toDegrees) / 2;
  const text = at(middle, (inner + outer) / 2);
  // Text runs along the radius; on the left half it is turned round, so that it reads from outside in.
  const turn = middle < 180 ? middle - 90 : middle + 90;
  return {
    path: `M${point(a)}A${outer} ${outer} 0 ${large} 1 ${point(b)}L${point(c)}A${inner} ${inner} 0 ${large} 0 ${point(d)}Z`,
    textX: round(text.x),
    textY: round(text.y),
    turn: round(turn),
  };
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A point so many degrees clockwise from the top. */
function at(degrees: number, radius: number): Point {
  const angle = ((degrees - 90) * Math.PI) / 180;
  return { x: CENTRE + radius * Math.cos(angle), y: CENTRE + radius * Math.sin(angle) };
}

function point({ x, y }: Point): string {
  return `${round(x)} ${round(y)}`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
