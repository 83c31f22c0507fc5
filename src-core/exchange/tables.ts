import { ReadingDetail } from '../ledger/act.ts';
import type { RecordKind } from '../ledger/records.ts';
import { asCell, columnsFor, headingOf, type Column, type Row } from './table-columns.ts';

/** What the table of a kind of record is called as a file. A kind that is not named here goes out under its own name. */
const NAME_OF_KIND: Partial<Record<RecordKind, string>> = {
  place: 'places',
  shelf: 'shelves',
  vessel: 'vessels',
  fill: 'standing',
  batch: 'batches',
  culture: 'cultures',
  feeding: 'feedings',
  pull: 'pulls',
  reading: 'readings',
  stageSpan: 'stages',
  lot: 'bottlings',
  told: 'told-facts',
  overruling: 'overrulings',
  strike: 'struck-lines',
  batchFilter: 'kept-filters',
  photo: 'photos',
  tasting: 'tastings',
  addition: 'additions',
  flow: 'flows',
  restatement: 'corrections',
};

export function tableNameOf(kind: RecordKind): string {
  return NAME_OF_KIND[kind] ?? headingOf(kind).replaceAll('_', '-');
}

/** How a table is made of the rows of the file: usually one line a row, with the columns of the file. */
export interface TableShape {
  readonly columns: readonly Column[];
  /** The lines one row of the file becomes. */
  readonly lines: (row: Row) => readonly Row[];
}

/** The shape of a kind of record, from the columns it has in the file. */
export function shapeOf(
  kind: RecordKind,
  names: readonly string[],
  booleans: ReadonlySet<string>,
): TableShape {
  switch (kind) {
    case 'reading':
      return readings(names, booleans);
    case 'told':
      return told(names, booleans);
    case 'addition':
      return additions(names, booleans);
    case 'fill':
      // A standing is known by its vessel: its own id is the vessel's.
      return {
        columns: columnsFor(
          names.map((name) => (name === 'id' ? 'vessel_id' : name)),
          booleans,
        ),
        lines: ({ id, ...row }) => [{ vessel_id: id, ...row }],
      };
    default:
      return { columns: columnsFor(names, booleans), lines: (row) => [row] };
  }
}

/** A reading's details stand in columns of their own; a titration is one column of JSON. */
function readings(names: readonly string[], booleans: ReadonlySet<string>): TableShape {
  const details: Column[] = Object.keys(ReadingDetail.shape).map((field) => ({
    heading: headingOf(field),
    cell: (row) => asCell((row['detail'] as Row | null)?.[field]),
  }));
  return {
    columns: [
      ...columnsFor(
        names.filter((name) => name !== 'detail'),
        booleans,
      ),
      ...details,
    ],
    lines: (row) => [{ ...row, detail: parsed(row['detail']) }],
  };
}

/** What was told stands a line a group of facts. */
function told(names: readonly string[], booleans: ReadonlySet<string>): TableShape {
  const others = names.filter((name) => name !== 'facts');
  return {
    columns: columnsFor([...others, 'fact', 'said'], booleans),
    lines: (row) =>
      Object.entries(parsed(row['facts']) as Record<string, unknown>).map(([fact, said]) => ({
        ...row,
        fact,
        said,
      })),
  };
}

/** The lines of the book: what was done as JSON, with whether it has been struck since. */
export const BOOK_COLUMNS: readonly Column[] = columnsFor(
  [
    ...['sequence', 'entry_id', 'request_id', 'happened_at_ms', 'written_at_ms', 'kind', 'struck'],
    ...['act', 'postings', 'typed'],
  ],
  new Set(['struck']),
);

const INGREDIENT = ['name', 'amount_typed', 'mass_ug'] as const;

function ingredientOf(row: Row): Row {
  const { name, amountTyped, massUg } = row;
  return { name, amount_typed: amountTyped, mass_ug: massUg };
}

/** What was put into a vessel after its batch was begun. */
function additions(names: readonly string[], booleans: ReadonlySet<string>): TableShape {
  const spread = names.flatMap((name) => (name === 'ingredient' ? INGREDIENT : [name]));
  return {
    columns: columnsFor(spread, booleans),
    lines: ({ ingredient, ...row }) => [{ ...row, ...ingredientOf(parsed(ingredient) as Row) }],
  };
}

/** What a batch was begun with, a line an ingredient; what was put in later stands among the additions. */
export const INGREDIENTS: TableShape = {
  columns: columnsFor(['batch_id', 'started_at_ms', 'line', ...INGREDIENT]),
  lines: ({ id, started_at_ms: started, ingredients }) =>
    (parsed(ingredients) as Row[]).map((ingredient, index) => ({
      ...{ batch_id: id, started_at_ms: started, line: index + 1 },
      ...ingredientOf(ingredient),
    })),
};

function parsed(text: unknown): unknown {
  return typeof text === 'string' ? (JSON.parse(text) as unknown) : {};
}
