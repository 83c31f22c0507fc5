import { foldForSearch } from './fold-for-search.ts';

/** A piece of a text around what was looked for, with the found places as [from, to) of the piece. */
export interface Snippet {
  readonly text: string;
  readonly marks: readonly (readonly [number, number])[];
}

const LONGEST = 120;
/** How much is shown before the first found place. */
const BEFORE = 30;

/** Cuts the piece out of the text as it was written; the words are looked for folded. */
export function snippetOf(written: string, words: readonly string[]): Snippet {
  const text = written.replace(/\s+/gu, ' ').trim();
  const places = placesOf(text, words);
  const first = places[0]?.[0] ?? 0;
  const from = text.length <= LONGEST || first <= BEFORE * 1.5 ? 0 : afterSpace(text, first - BEFORE);
  const to = text.length - from <= LONGEST ? text.length : beforeSpace(text, from + LONGEST);
  const [head, tail] = [from > 0 ? '…' : '', to < text.length ? '…' : ''];
  const shift = head.length - from;
  return {
    text: `${head}${text.slice(from, to)}${tail}`,
    marks: places
      .filter(([start, end]) => start >= from && end <= to)
      .map(([start, end]) => [start + shift, end + shift] as const),
  };
}

/** Every place where a word stands, none overlapping another, in order. */
function placesOf(text: string, words: readonly string[]): [number, number][] {
  const { folded, starts } = foldedWithStarts(text);
  const found: [number, number][] = [];
  for (const word of words) {
    for (let at = folded.indexOf(word); at >= 0; at = folded.indexOf(word, at + word.length)) {
      const end = starts[at + word.length] ?? text.length;
      found.push([starts[at] ?? 0, end]);
    }
  }
  found.sort((a, b) => a[0] - b[0] || b[1] - a[1]);
  const apart: [number, number][] = [];
  for (const place of found) if (place[0] >= (apart.at(-1)?.[1] ?? 0)) apart.push(place);
  return apart;
}

/** The folded text, and for each of its units where the character stands that it came from. */
function foldedWithStarts(text: string): { folded: string; starts: number[] } {
  let folded = '';
  const starts: number[] = [];
  let at = 0;
  for (const character of text) {
    const piece = foldForSearch(character);
    folded += piece;
    for (let unit = 0; unit < piece.length; unit += 1) starts.push(at);
    at += character.length;
  }
  return { folded, starts };
}

function afterSpace(text: string, at: number): number {
  const space = text.indexOf(' ', at);
  if (space >= 0 && space < at + 15) return space + 1;
  return isLowSurrogate(text, at) ? at + 1 : at;
}

function beforeSpace(text: string, at: number): number {
  const space = text.lastIndexOf(' ', at);
  if (space > at - 15) return space;
  return isLowSurrogate(text, at) ? at - 1 : at;
}

function isLowSurrogate(text: string, at: number): boolean {
  const unit = text.charCodeAt(at);
  return unit >= 0xdc00 && unit <= 0xdfff;
}
