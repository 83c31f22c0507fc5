import { COMPONENTS } from '../ledger/masses.ts';
import type { RecordKind } from '../ledger/records.ts';
import type { Cell } from './csv-text.ts';

/** A row as it lies in the cellar file: plain values by the name of their column. */
export type Row = Readonly<Record<string, unknown>>;

/** Looks up what an id stands for, so that a table says names beside ids. */
export interface Look {
  of(kind: RecordKind, id: string): Row | null;
}

/** One column of a table that goes out. */
export interface Column {
  readonly heading: string;
  cell(row: Row, look: Look): Cell;
}

/** What is said beside each id, by how its column's name ends. A line here is a column in every table that has such an id. */
const BESIDE_IDS: readonly {
  readonly ends: string;
  readonly kind: RecordKind;
  readonly say: readonly (readonly [heading: string, of: (named: Row, look: Look) => Cell])[];
}[] = [
  {
    ...{ ends: 'vessel_id', kind: 'vessel' },
    say: [
      ['vessel_number', (vessel) => asCell(vessel['number'])],
      ['vessel_place', (vessel, look) => placeCode(vessel, look)],
      ['vessel_name', (vessel) => asCell(vessel['name'])],
    ],
  },
  {
    ...{ ends: 'batch_id', kind: 'batch' },
    say: [
      ['batch_code', (batch) => asCell(batch['code'])],
      ['batch_name', (batch) => asCell(batch['name'])],
    ],
  },
  { ends: 'culture_id', kind: 'culture', say: [['culture_name', (culture) => asCell(culture['name'])]] },
  {
    ...{ ends: 'shelf_id', kind: 'shelf' },
    say: [
      ['shelf_letter', (shelf) => asCell(shelf['letter'])],
      ['shelf_name', (shelf) => asCell(shelf['name'])],
    ],
  },
  { ends: 'place_id', kind: 'place', say: [['place_name', (place) => asCell(place['name'])]] },
];

/**
 * The columns of a table from the names its columns have in the file: units stay in the names, moments (`…_ms`) become ISO
 * dates in UTC, and beside an id stands what it names. A column that the file gains goes out without a line here.
 *
 * @param booleans the columns that hold yes or no
 */
export function columnsFor(names: readonly string[], booleans: ReadonlySet<string> = new Set()): Column[] {
  return names.flatMap((name): Column[] => {
    if (name.endsWith('_ms')) {
      return [{ heading: name.slice(0, -'_ms'.length), cell: (row) => isoInstant(row[name]) }];
    }
    if (name === 'masses_ug') return COMPONENTS.map((component) => massColumn(name, component));
    const own: Column = {
      heading: name,
      cell: booleans.has(name) ? (row) => yesNo(row[name]) : (row) => asCell(row[name]),
    };
    const beside = BESIDE_IDS.find(({ ends }) => name === ends || name.endsWith(`_${ends}`));
    if (beside === undefined) return [own];
    const before = name.slice(0, name.length - beside.ends.length);
    return [own, ...besideId(beside, name, before)];
  });
}

/** What a liquid is made of stands a component a column, in whole micrograms; empty where no masses were kept. */
function massColumn(name: string, component: string): Column {
  return {
    heading: `${headingOf(component)}_ug`,
    cell(row) {
      const masses = row[name];
      if (typeof masses !== 'string') return null;
      return asCell((JSON.parse(masses) as Row)[component] ?? 0);
    },
  };
}

/** What is said beside an id that stands in the column `name`. `before` sets two ids of one kind apart. */
function besideId(beside: (typeof BESIDE_IDS)[number], name: string, before: string): Column[] {
  return beside.say.map(([heading, of]) => ({
    heading: `${before}${heading}`,
    cell(row, look) {
      const id = row[name];
      const named = typeof id === 'string' ? look.of(beside.kind, id) : null;
      return named === null ? null : of(named, look);
    },
  }));
}

/** Where a vessel stands, as `B4`; null for one that stands on no shelf. */
export function placeCode(vessel: Row, look: Look): Cell {
  const { shelf_id: shelfId, position } = vessel;
  const shelf = typeof shelfId === 'string' ? look.of('shelf', shelfId) : null;
  return shelf === null || typeof position !== 'number' ? null : `${String(shelf['letter'])}${position}`;
}

/** `2026-11-25T14:30:00Z`, with thousandths only where there are any. */
export function isoInstant(value: unknown): Cell {
  if (typeof value !== 'number') return null;
  return new Date(value).toISOString().replace('.000Z', 'Z');
}

/** A value of the file as a cell. What is made of parts is JSON text; a picture's bytes do not go into a table. */
export function asCell(value: unknown): Cell {
  if (value === null || value === undefined || value instanceof Uint8Array) return null;
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return value;
  if (typeof value === 'bigint') return Number(value);
  return JSON.stringify(value);
}

function yesNo(value: unknown): Cell {
  return value === null || value === undefined ? null : value === 1 || value === true;
}

/** `totalSulfiteMgPerL` as `total_sulfite_mg_per_l`: how the code's names read in a heading. */
export function headingOf(name: string): string {
  return name
    .replaceAll(/([a-z0-9])([A-Z])/gu, '$1_$2')
    .replaceAll(/([a-z])([0-9])/gu, '$1_$2')
    .toLowerCase();
}
