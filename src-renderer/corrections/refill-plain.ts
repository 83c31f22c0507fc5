import type { Act, ActDraft } from '#core/ledger/act.ts';
import type { FormReader } from '../acts/form-reader.ts';
import { draftOf } from './draft-of.ts';
import type { RefillFields } from './refill-fields.ts';

type Sort = 'volume' | 'volumeOrNone' | 'bottles' | 'warmth' | 'minutes' | 'name' | 'line' | 'note' | 'must';

/** One value of a line that the small form can put right. */
export interface PlainField {
  readonly field: string;
  readonly label: string;
  readonly sort: Sort;
}

/** Values that stand in an act by themselves, whatever it is. */
const PLAIN: readonly PlainField[] = [
  { field: 'name', label: 'Name', sort: 'name' },
  { field: 'volumeUl', label: 'How much', sort: 'volume' },
  { field: 'bottles', label: 'How many bottles', sort: 'bottles' },
  { field: 'lossUl', label: 'Lost on the way', sort: 'volumeOrNone' },
  { field: 'leesUl', label: 'Left behind as lees', sort: 'volumeOrNone' },
  { field: 'reachedCelsius', label: 'How hot it became', sort: 'warmth' },
  { field: 'minutes', label: 'For how many minutes', sort: 'minutes' },
  { field: 'holder', label: 'Who has it', sort: 'line' },
  { field: 'by', label: 'Who tasted', sort: 'line' },
  { field: 'caption', label: 'Caption', sort: 'line' },
  { field: 'text', label: 'Text', sort: 'note' },
  { field: 'reason', label: 'Why', sort: 'note' },
  { field: 'note', label: 'Note', sort: 'note' },
];

/** Kinds whose reason or text may not be left out. */
const MUST_SAY: ReadonlySet<string> = new Set([
  'note.text',
  'quarantine.reason',
  'releaseBottles.reason',
  'overrule.reason',
]);

/** What the small form asks of an act beside its vessel and its time. */
export function plainFields(act: Act | ActDraft): readonly PlainField[] {
  const values = act as unknown as Record<string, unknown>;
  return PLAIN.filter(({ field, sort }) => {
    const value = values[field];
    return ['name', 'line', 'note'].includes(sort) ? typeof value === 'string' : typeof value === 'number';
  }).map((each) => (MUST_SAY.has(`${act.kind}.${each.field}`) ? { ...each, sort: 'must' } : each));
}

export function refillPlain(fields: RefillFields, act: Act): void {
  const values = act as unknown as Record<string, unknown>;
  for (const { field, sort } of plainFields(act)) {
    const value = values[field];
    if (typeof value === 'string') fields.text(field, value);
    else if (typeof value === 'number') {
      if (sort === 'warmth') fields.quantity('temperature', field, value);
      else if (sort === 'volume' || sort === 'volumeOrNone') fields.volume(field, value);
      else fields.number(field, value);
    }
  }
}

const BOTTLES = { low: 1, high: 10_000, what: 'number of bottles' };
const MINUTES = { units: /^m(?:in(?:utes?)?)?$/iu, sample: '30' };
const LETTERS = 3;

/** The act as the small form has it. */
export function buildPlain(read: FormReader, act: Act): ActDraft {
  const draft = draftOf(act);
  if (draft === null) throw new Error(`a line of kind ${act.kind} is never told anew`);
  const told = Object.fromEntries(plainFields(draft).map((each) => [each.field, readPlain(read, each)]));
  read.when();
  return { ...draft, ...told };
}

function readPlain(read: FormReader, { field, sort }: PlainField): string | number {
  switch (sort) {
    case 'volume':
      return read.volume(field);
    case 'volumeOrNone':
      return read.volumeOrNone(field);
    case 'bottles':
      return read.whole(field, BOTTLES);
    case 'warmth': {
      const celsius = read.quantity('temperature', field)?.value ?? null;
      if (celsius === null && read.raw(field) === '') read.problem(field, 'Say how hot it became.');
      return celsius ?? 20;
    }
    case 'minutes': {
      const minutes = read.number(field, MINUTES);
      if (minutes === null && read.raw(field) === '') read.problem(field, 'Say for how many minutes.');
      return minutes ?? 0;
    }
    case 'name':
      return read.name(field);
    case 'line':
      return read.line(field);
    case 'note':
      return read.note(field);
    case 'must': {
      const text = read.note(field);
      if (text.length < LETTERS) read.problem(field, 'Write at least three letters.');
      return text;
    }
  }
}
