import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Pedigree, PedigreeNode } from '#core/contract/pedigree.ts';
import { APART_AS_FILLED } from '#core/ledger/records.ts';
import { sayVolume } from './quantity-words.ts';
import { sayStage } from './stage-words.ts';
import { sayDate } from './time-words.ts';

/** Why bottles are kept apart: as it was told, or that their vessel was when they were filled. */
export function sayKeptApartFor(keptApartFor: string): string {
  return keptApartFor === APART_AS_FILLED
    ? 'They were filled from a vessel that stood in Quarantine.'
    : keptApartFor;
}

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity' | 'dates'>;
type Direction = Pedigree['direction'];

export const DIRECTION_WORDS: Readonly<Record<Direction, string>> = {
  back: 'Where it came from',
  onward: 'What it touched',
};

/** What a node is now: where it stands and how much, how many bottles are left, or that it is gone. */
export function sayNodeNow(node: PedigreeNode, rules: Rules): string {
  const apart = node.keptApartFor === '' ? '' : ', kept apart';
  if (node.kind === 'culture') return 'culture';
  if (node.kind === 'lot') return `${sayBottlesLeft(node, rules)}${apart}`;
  if (node.standingUl === null) return 'nothing left';
  const stage = node.stage === null ? '' : `, ${sayStage(node.stage)}`;
  return `${sayVolume(node.standingUl, rules)}${stage}`;
}

/** The same for the drawing, where the mark beside it tells the stage. */
export function sayNodeShort(node: PedigreeNode, rules: Rules): string {
  if (node.kind === 'culture') return 'culture';
  if (node.kind === 'lot')
    return `${sayBottlesLeft(node, rules)}${node.keptApartFor === '' ? '' : ', apart'}`;
  const left = node.standingUl === null ? 'nothing left' : sayVolume(node.standingUl, rules);
  return node.vesselNumber === null ? left : `vessel ${node.vesselNumber} · ${left}`;
}

/** One thing among those to keep apart, told from others of its name by its vessel or the day it was filled. */
export function sayNodeApart(node: PedigreeNode, rules: Rules): string {
  const where = node.vesselNumber === null ? '' : `, vessel ${node.vesselNumber}`;
  if (node.kind !== 'lot') return `${node.name}${where}: ${sayNodeNow(node, rules)}`;
  return `Bottles of ${node.name}, filled ${sayDate(node.atMs, rules)}: ${sayNodeNow(node, rules)}`;
}

function sayBottlesLeft({ bottlesLeft, bottleUl }: PedigreeNode, rules: Rules): string {
  const left = bottlesLeft ?? 0;
  if (left === 0) return 'no bottle left';
  const size = bottleUl === null ? '' : ` of ${sayVolume(bottleUl, rules)}`;
  return `${left} ${left === 1 ? 'bottle' : 'bottles'}${size} left`;
}

interface Joined {
  readonly count: number;
  readonly volumeUl: number;
  readonly firstMs: number;
  readonly lastMs: number;
}

/** What went over and when: `4 L, 3 May 2026`; several times together with their first and last day. */
export function sayJoined({ count, volumeUl, firstMs, lastMs }: Joined, rules: Rules): string {
  const amount = volumeUl === 0 ? '' : sayVolume(volumeUl, rules);
  const [first, last] = [sayDate(firstMs, rules), sayDate(lastMs, rules)];
  const when = first === last ? first : `${first} to ${last}`;
  const times = count === 1 ? '' : `${count} times`;
  return [times, amount, when].filter((part) => part !== '').join(', ');
}

/** The same in the room a drawing has. */
export function sayJoinedShort({ count, volumeUl, firstMs }: Joined, rules: Rules): string {
  const amount = volumeUl === 0 ? '' : sayVolume(volumeUl, rules);
  const when = count === 1 ? sayDate(firstMs, rules) : `in ${count} parts`;
  return [amount, when].filter((part) => part !== '').join(', ');
}

/** The heading of a generation, counted from what was asked of. */
export function sayGeneration(number: number, direction: Direction): string {
  if (number === 0) return 'What you asked about';
  if (number < 0) return 'Bottles of it';
  const steps = number === 1 ? '1 step' : `${number} steps`;
  return direction === 'back' ? `${steps} back` : `${steps} on`;
}

/** How much there is of it in all. */
export function sayHowMany({ nodes, direction }: Pedigree, rootCount: number): string {
  const others = nodes.length - rootCount;
  if (others <= 0) return direction === 'back' ? 'It came from nothing else.' : 'It touched nothing else.';
  const counted = `${others.toLocaleString('en')} ${others === 1 ? 'other' : 'others'}`;
  return direction === 'back' ? `It came from ${counted}.` : `It touched ${counted}.`;
}

export const MORE_WORDS =
  'There is more than this: the tracing stopped here. Ask again from one of the last in the list to go on.';

export function sayLeftOut(leftOut: number): string {
  const number = leftOut.toLocaleString('en');
  return leftOut === 1
    ? 'The drawing leaves out 1 of them, further away. The list has all.'
    : `The drawing leaves out ${number} of them, further away. The list has all.`;
}

/** How many would be kept apart, as a sentence. */
export function sayKeptApartCount(vessels: number, lots: number): string {
  const parts = [
    vessels === 0 ? '' : `${vessels} ${vessels === 1 ? 'vessel' : 'vessels'}`,
    lots === 0 ? '' : `${lots} ${lots === 1 ? 'lot' : 'lots'} of bottles`,
  ].filter((part) => part !== '');
  return parts.length === 0 ? 'Nothing is ticked.' : `${parts.join(' and ')} will be kept apart.`;
}

export const KEEP_APART_WORDS = {
  lead: 'The vessels ticked become Quarantine and the bottles ticked are marked as kept apart. All of it is one line of the book, and one press takes it back.',
  unticked:
    'Left out, this stays in use although it had to do with the same liquid. Do so only when you know that it is sound.',
  already: 'Already kept apart:',
  none: 'Nothing of it stands in a vessel or a bottle any more, or all of it is kept apart already.',
  more: 'More descends from it than the book told in one go, and only what is listed here is kept apart. Ask again from the last of the list afterwards.',
  reason: 'Say why, in three letters or more.',
} as const;

/** Said before bottles that are kept apart are opened or given. */
export const KEPT_APART_USE =
  'Do not drink or give them until you know what is wrong and have released them on their leaf. Write here only what has become of them: opened to look, broken or emptied out.';

/** Above each sheet of a drawing that is printed on several. */
export function saySheet(
  number: number,
  { columns, rows }: { readonly columns: number; readonly rows: number },
): string {
  const [column, row] = [((number - 1) % columns) + 1, Math.ceil(number / columns)];
  const where = rows === 1 ? '' : `, row ${row}, from the left ${column}`;
  return `Sheet ${number} of ${columns * rows}${where}. Lay it over its neighbour up to the dashed line, cross on cross.`;
}
