import { readReference } from '../../published/read-reference.ts';

const rows = new Map(readReference().map((row) => [row.id, row]));

/** A published value by its row, with the row's own tolerance as an absolute one. */
export function near(id: string): {
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: number;
  readonly list: readonly [number, number];
  readonly tolerance: number;
} {
  const row = rows.get(id);
  if (!row) throw new Error(`No row ${id} in the reference table.`);
  const expected = Number(row.expected);
  const [kind, size = '0'] = row.tolerance.split(':');
  const list = Array.isArray(row.expected) ? row.expected.map(Number) : [];
  return {
    inputs: row.inputs,
    expected,
    list: [list[0] ?? Number.NaN, list[1] ?? Number.NaN],
    tolerance: kind === 'rel' ? Math.abs(expected) * Number(size) : Number(size),
  };
}
