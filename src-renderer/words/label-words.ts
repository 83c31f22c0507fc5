import type { Labelled, LabelJar, UsedSheet } from '#core/contract/labels.ts';
import type { ALWAYS_PRINTED } from '#core/labels/label-part.ts';
import { type LabelNote, type LabelPart } from '#core/labels/label-part.ts';
import { placesOnPage, type LabelLayout, type LabelShape, type LayoutProblem } from '#core/labels/layout.ts';
import { placeOfCell, type FillingOrder } from '#core/labels/placing.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { FERMENT_KIND_WORDS } from './choice-words.ts';
import { counted } from './exchange-words.ts';
import { sayVolume } from './quantity-words.ts';
import { isoDayOf, sayShortDate } from './time-words.ts';

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>;

/** What can stand on a label, as the switches name it. */
export const PART_WORDS: Readonly<Record<LabelPart, string>> = {
  name: 'Name',
  caution: 'Caution',
  what: 'What it is',
  started: 'Started',
  batchStarted: 'Start of the batch',
  stages: 'Stages',
  strength: 'Acidity',
  ph: 'pH',
  culture: 'Mother or yeast',
  id: 'Id',
  code: 'Square code',
  bottled: 'Bottled',
  alcohol: 'Alcohol',
  ingredients: 'Ingredients',
  allergens: 'Allergens',
  from: 'Who it is from',
  bestKept: 'How it is best kept',
  freeLine: 'Free line',
  blankLines: 'Blank lines',
};

/** Why a switch that is always on cannot be pressed off. */
export const WHY_ALWAYS: Readonly<Record<(typeof ALWAYS_PRINTED)[number], string>> = {
  name: 'The name always prints: a jar without one is a riddle.',
  caution: 'Caution always prints when a rule is not met. It cannot be switched off.',
  started: 'The day it was started always prints: how old it is decides what may be done with it.',
  id: 'The id always prints: by it the jar is found again when the code cannot be read.',
};

/** What stands in a sentence: `stages`, `the square code`. */
function partInSentence(part: LabelPart): string {
  const words = PART_WORDS[part];
  return words.startsWith('pH') ? words : words.charAt(0).toLowerCase() + words.slice(1);
}

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1) ?? ''}`;
}

/** What the desk says of one label beside what it shows. */
export function sayLabelNote(note: LabelNote): string {
  switch (note.type) {
    case 'leftOff':
      return `Not on this size: ${note.parts.map(partInSentence).join(', ')}.`;
    case 'cut':
      return `${PART_WORDS[note.part]}: cut, with … at its end.`;
    case 'narrowed':
      return `${PART_WORDS[note.part]}: set narrow, so that it fits.`;
    case 'madeSmaller':
      return `${PART_WORDS[note.part]}: made smaller, ${String(note.sizePt)} pt.`;
    case 'willNotPrint':
      return `${counted(note.count, 'character')} will not print: ${note.characters.join(' ')}. An empty box stands in each place.`;
    case 'doesNotFit':
      return `Does not fit on this size: ${note.parts.map(partInSentence).join(', ')}. It must be on every label, so this one is not printed. Choose a larger size.`;
  }
}

/** True for a note that asks for a look before printing; narrower or smaller type only informs. */
export function asksForALook(note: LabelNote): boolean {
  return note.type !== 'narrowed' && note.type !== 'madeSmaller';
}

/** True for what nobody would want on a jar: letters that do not print, a name that is cut, a label that cannot be. */
export function isGrave(note: LabelNote): boolean {
  return (
    note.type === 'doesNotFit' ||
    note.type === 'willNotPrint' ||
    (note.type === 'cut' && note.part === 'name')
  );
}

const SHAPE_WORDS: Readonly<Record<LabelShape, string>> = {
  rectangle: '',
  round: 'round',
  tag: 'tie-on tags',
  wrap: 'wrap-around',
  strip: 'shelf-edge strips',
};

const PAPER_WORDS: Readonly<Record<LabelLayout['paper'], string>> = {
  a4: 'A4',
  a4Landscape: 'A4 across',
  letter: 'US Letter',
  letterLandscape: 'US Letter across',
  own: 'own paper',
};

export const PAPERS_NAMED = PAPER_WORDS;

/** A length in the unit a layout is told in: `63.5 mm`, `2⅝ in`. */
export function sayLength(mm: number, told: 'mm' | 'in'): string {
  return `${lengthNumber(mm, told)}\u00A0${told}`;
}

/** The number alone, for a field: as many decimals as were meant. */
export function lengthNumber(mm: number, told: 'mm' | 'in'): string {
  if (told === 'mm') return String(Number(mm.toFixed(2)));
  const inches = mm / 25.4;
  const sixteenths = Math.round(inches * 16);
  if (Math.abs(inches * 16 - sixteenths) < 0.01) return sixteenthsText(sixteenths);
  return String(Number(inches.toFixed(4)));
}

function sixteenthsText(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16);
  let top = sixteenths % 16;
  let bottom = 16;
  if (top === 0) return String(whole);
  while (top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  return `${whole === 0 ? '' : `${String(whole)} `}${String(top)}/${String(bottom)}`;
}

/** Width by height of one label: `63.5 × 38.1 mm`, `⌀ 50 mm`. */
export function sayLabelSize(
  layout: Pick<LabelLayout, 'shape' | 'labelWidthMm' | 'labelHeightMm' | 'told'>,
): string {
  const { shape, labelWidthMm, labelHeightMm, told } = layout;
  if (shape === 'round') return `⌀ ${sayLength(labelWidthMm, told)}`;
  return `${lengthNumber(labelWidthMm, told)} × ${sayLength(labelHeightMm, told)}`;
}

/** A layout by its sizes, and the keeper's own by its name first: `A4, 3 × 7, 63.5 × 38.1 mm`. */
export function sayLayout(layout: LabelLayout): string {
  const { paper, columns, rows, roll, shape, name } = layout;
  const where = roll ? 'roll' : `${PAPER_WORDS[paper]}, ${String(columns)} × ${String(rows)}`;
  const parts = [where, sayLabelSize(layout), SHAPE_WORDS[shape]].filter((part) => part !== '');
  return name === '' ? parts.join(', ') : `${name}: ${parts.join(', ')}`;
}

export const MEASURE_FIRST =
  'Round sheets differ between makers. Print a test sheet, hold it against yours, and make a layout of your own if it differs.';

/** How full a sheet is: `places 5 to 16 of 21`. */
export function sayPlaces(from: number, upTo: number, layout: LabelLayout): string {
  const of = placesOnPage(layout);
  return from === upTo
    ? `place ${String(from)} of ${String(of)}`
    : `places ${String(from)} to ${String(upTo)} of ${String(of)}`;
}

/** What the desk remembers of the last sheet: `Places 1 to 16 were used on 25 Nov.` */
export function sayUsed({ taken, sheet, atMs }: UsedSheet, filled: FillingOrder): string {
  const places = taken.flatMap((cell) => placeOfCell(sheet, filled, cell) ?? []).sort((a, b) => a - b);
  const spans: { from: number; to: number }[] = [];
  for (const place of places) {
    const last = spans.at(-1);
    if (last?.to === place - 1) last.to = place;
    else spans.push({ from: place, to: place });
  }
  const said = spans
    .slice(0, SPANS_SAID)
    .map(({ from, to }) => (from === to ? String(from) : `${String(from)} to ${String(to)}`));
  if (spans.length > SPANS_SAID) said.push('others');
  const [one, were] = places.length === 1 ? ['Place', 'was'] : ['Places', 'were'];
  return `${one} ${listed(said)} ${were} used on ${sayShortDate(atMs)}.`;
}

const SPANS_SAID = 4;

/** How many labels of how many jars: `12 labels from 2 jars`. */
export function sayHowManyLabels(labels: number, jars: number): string {
  return `${counted(labels, 'label')} from ${counted(jars, 'jar')}`;
}

/** What a jar is, beside its name: `V-7 at A2, fruit vinegar, 1.7 L`. */
export function sayJar(jar: LabelJar, rules: Rules): string {
  const at = jar.spot === null ? '' : ` at ${jar.spot}`;
  const kind =
    jar.ferment === null ? (jar.of.kind === 'vessel' ? 'empty vessel' : '') : FERMENT_KIND_WORDS[jar.ferment];
  const filled = jar.bottledAtMs === null ? '' : `bottled ${isoDayOf(jar.bottledAtMs)}`;
  const much = jar.volumeUl === null || jar.volumeUl === 0 ? '' : sayVolume(jar.volumeUl, rules);
  return [`${jar.id}${at}`, KIND_WORDS[jar.of.kind], kind, filled, much]
    .filter((part) => part !== '')
    .join(', ');
}

const KIND_WORDS: Readonly<Record<Labelled['kind'], string>> = {
  vessel: '',
  batch: 'the whole batch',
  lot: 'bottles',
};

/** The name of what is labelled; an empty vessel without a name of its own goes by its number. */
export function jarName(jar: LabelJar): string {
  if (jar.name !== '') return jar.name;
  return jar.vesselNumber === null ? jar.id : `Vessel ${String(jar.vesselNumber)}`;
}

/** What is wrong with measures that were typed, and how to mend it. */
export function sayLayoutProblem(problem: LayoutProblem, told: 'mm' | 'in'): string {
  switch (problem.type) {
    case 'WiderThanPaper':
      return `The columns are wider than the paper by ${sayLength(Math.max(0.1, problem.overMm), told)}. Fewer columns, a narrower label, or smaller gaps.`;
    case 'HigherThanPaper':
      return `The rows are higher than the paper by ${sayLength(Math.max(0.1, problem.overMm), told)}. Fewer rows, a lower label, or smaller gaps.`;
    case 'RoundNotAsHighAsWide':
      return 'A round label is as high as it is wide.';
    case 'RollHoldsOne':
      return 'On a roll there is one label to a page: one column and one row.';
  }
}

/** Which labels do not fit, for the sentence that refuses to print. */
export function sayDoNotFit(ids: readonly string[]): string {
  const shown = ids.slice(0, 6);
  const more = ids.length - shown.length;
  const all = more > 0 ? `${shown.join(', ')} and ${String(more)} more` : listed(shown);
  return `Nothing was printed: on this size there is no room for what must stand on the label of ${all}. Choose a larger size, or take ${ids.length === 1 ? 'it' : 'them'} out.`;
}

export const CALIBRATION_HINTS = {
  lead: 'Print the test sheet on plain paper at actual size, hold it against a sheet of labels to the light, and measure.',
  across: 'How far the print must move to the right; to the left is less than 0.',
  down: 'How far the print must move down; up is less than 0.',
  ruler: 'How long the ruler of 100 mm came out.',
  shrinks:
    'Your printer shrinks pages: choose “Actual size” or 100 % in its print sheet, and print the test sheet again.',
} as const;

export const INK_WORDS =
  'Ink from an ink-jet printer runs when it gets wet. Cover the label with clear tape, or print it on a laser printer.';

/** What was printed, and what the desk remembers of it. */
export function sayPrinted(given: {
  readonly labels: number;
  readonly usedUpTo: number;
  /** The place the next print begins at. */
  readonly next: number;
  readonly places: number;
}): string {
  const sent = `${counted(given.labels, 'label')} handed to the print sheet.`;
  if (given.places <= 1) return sent;
  return given.next === 1
    ? `${sent} The last sheet is used up; the next begins at place 1.`
    : `${sent} Places up to ${String(given.usedUpTo)} are marked as used; the next begins at place ${String(given.next)}.`;
}
