import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ReadingRow } from '#core/contract/shelves.ts';
import { roundedText } from '#core/quantities/round.ts';
import { formatQuantity } from '#core/quantities/format-quantity.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import { clockOf, isoDayOf } from '../words/time-words.ts';
import { csvOf } from './table-text.ts';

/** One column of the table of readings: what heads it, what a cell says, and what it is sorted by. */
export interface ReadingColumn {
  readonly key: string;
  readonly title: string;
  readonly isNumber: boolean;
  readonly text: (reading: ReadingRow) => string | null;
  readonly order: (reading: ReadingRow) => number | string | null;
}

type Key =
  | 'gravityCorrectedSg'
  | 'ph'
  | 'temperatureCelsius'
  | 'alcoholPercentVolume'
  | 'freeSulfiteMgPerL'
  | 'volumeUl';

/** The columns a set of readings needs: date, gravity, acidity, pH and temperature always, others once measured. */
export function readingColumns(readings: readonly ReadingRow[], rules: HouseRules): readonly ReadingColumn[] {
  const quantity = (key: Key, kind: QuantityKind, title: string): ReadingColumn => ({
    ...{ key, title, isNumber: true },
    text: (reading) => numberText(reading[key], kind, rules),
    order: (reading) => reading[key],
  });
  const gravityOf = (reading: ReadingRow): number | null => reading.gravityCorrectedSg ?? reading.gravitySg;
  const columns: readonly (ReadingColumn & { readonly always?: true })[] = [
    {
      key: 'at',
      title: 'Date',
      isNumber: false,
      always: true,
      text: ({ atMs }) => isoDayOf(atMs),
      order: ({ atMs }) => atMs,
    },
    {
      ...{
        key: 'gravity',
        title: `Gravity ${rules.gravity === 'SG' ? 'SG' : '°Bx'}`,
        isNumber: true,
        always: true,
      },
      text: (reading) => {
        const text = numberText(gravityOf(reading), 'gravity', rules);
        return text !== null && reading.gravityCorrectedSg === null ? `${text} as read` : text;
      },
      order: gravityOf,
    },
    {
      ...{ key: 'acidity', title: 'Acidity %', isNumber: true, always: true },
      text: ({ acidityGramsPer100Ml: grams, acidityAs }) =>
        grams === null ? null : `${roundedText(grams, 1)} ${acidityAs ?? '(acid not named)'}`,
      order: (reading) => reading.acidityAsAceticGramsPer100Ml ?? reading.acidityGramsPer100Ml,
    },
    { ...quantity('ph', 'pH', 'pH'), always: true },
    { ...quantity('temperatureCelsius', 'temperature', `Temp °${rules.temperature}`), always: true },
    quantity('alcoholPercentVolume', 'alcohol', 'Alcohol % vol'),
    quantity('freeSulfiteMgPerL', 'freeSulfite', 'Free SO2 mg/L'),
    {
      ...{ key: 'volumeUl', title: 'Level', isNumber: true },
      text: ({ volumeUl }) => {
        if (volumeUl === null) return null;
        const { number, unit } = formatQuantity({ kind: 'volume', value: volumeUl, house: rules });
        return `${number} ${unit}`;
      },
      order: ({ volumeUl }) => volumeUl,
    },
    {
      key: 'taste',
      title: 'Taste',
      isNumber: false,
      text: ({ taste }) => (taste === '' ? null : taste),
      order: ({ taste }) => taste,
    },
  ];
  return columns.filter(
    ({ always, text }) => always === true || readings.some((reading) => text(reading) !== null),
  );
}

function numberText(value: number | null, kind: QuantityKind, rules: HouseRules): string | null {
  return value === null ? null : formatQuantity({ kind, value, house: rules }).number;
}

/** The readings sorted by a column; those without a value in it come last either way. */
export function sortedReadings(
  readings: readonly ReadingRow[],
  column: ReadingColumn,
  descending: boolean,
): readonly ReadingRow[] {
  const way = descending ? -1 : 1;
  return [...readings].sort((a, b) => {
    const [x, y] = [column.order(a), column.order(b)];
    const missing = Number(x === null || x === '') - Number(y === null || y === '');
    if (missing !== 0) return missing;
    if (typeof x === 'string' && typeof y === 'string') return way * x.localeCompare(y);
    return way * (Number(x) - Number(y)) || b.atMs - a.atMs;
  });
}

/** Every value of the readings in base units, for a spreadsheet: one line a reading, ISO time, the unit in the heading. */
export function readingsCsv(readings: readonly ReadingRow[]): string {
  const number = (value: number | null): string => (value === null ? '' : String(Number(value.toFixed(5))));
  const head = [
    ...['time', 'gravity as read SG', 'gravity at 20 C SG', 'instrument', 'temperature C', 'pH', 'pH method'],
    ...['acidity g/100 mL', 'acid', 'acidity method', 'acidity error g/100 mL', 'acidity as acetic g/100 mL'],
    ...['alcohol % vol', 'free SO2 mg/L', 'volume mL', 'taste'],
  ];
  const lines = readings.map((r) => [
    ...[`${isoDayOf(r.atMs)} ${clockOf(r.atMs)}`, number(r.gravitySg), number(r.gravityCorrectedSg)],
    ...[r.gravityInstrument ?? '', number(r.temperatureCelsius), number(r.ph), r.phMethod ?? ''],
    ...[
      number(r.acidityGramsPer100Ml),
      r.acidityAs ?? '',
      r.acidityMethod ?? '',
      number(r.acidityUncertainty),
    ],
    ...[number(r.acidityAsAceticGramsPer100Ml), number(r.alcoholPercentVolume), number(r.freeSulfiteMgPerL)],
    ...[r.volumeUl === null ? '' : String(r.volumeUl / 1000), r.taste],
  ]);
  return csvOf([head, ...lines]);
}
