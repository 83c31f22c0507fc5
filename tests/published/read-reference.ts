import { readFileSync } from 'node:fs';

/** One published check value. */
export interface ReferenceRow {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: unknown;
  readonly unit: string;
  readonly tolerance: string;
  readonly source: string;
}

/** The reference table, row by row in its own order. */
export function readReference(): readonly ReferenceRow[] {
  const text = readFileSync(new URL('./reference.csv', import.meta.url), 'utf8');
  const [header, ...rows] = parseCsv(text);
  if (header?.[0] !== 'id') throw new Error('The reference table begins with its header.');
  return rows.map(
    ([id = '', quantity = '', inputs = '', expected = '', unit = '', tolerance = '', source = '']) => ({
      id,
      quantity,
      inputs: JSON.parse(inputs) as Record<string, unknown>,
      expected: JSON.parse(expected) as unknown,
      unit,
      tolerance,
      source,
    }),
  );
}

/** Fields in double quotes may hold commas, line breaks and doubled quotes (RFC 4180). */
function parseCsv(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = '';
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const character = text.charAt(i);
    if (quoted && character === '"' && text.charAt(i + 1) === '"') {
      field += '"';
      i += 1;
    } else if (character === '"') {
      quoted = !quoted;
    } else if (!quoted && character === ',') {
      row.push(field);
      field = '';
    } else if (!quoted && character === '\n') {
      rows.push([...row, field.replace(/\r$/u, '')]);
      row = [];
      field = '';
    } else {
      field += character;
    }
  }
  if (field !== '' || row.length > 0) rows.push([...row, field]);
  return rows;
}
