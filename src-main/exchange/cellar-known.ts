import type { CellarKnown, VesselKnown } from '#core/exchange/place-row.ts';
import type { Before } from '#core/exchange/slips-of-row.ts';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import type { CellarSession } from '../cellar/session.ts';

/** The cellar as rows of a table are held against it, as it is at this moment. */
export interface CellarNow extends CellarKnown {
  /** The last value of each quantity in a vessel before a moment, of the batch that stands in it. */
  before(vesselId: VesselId, batchId: BatchId, atMs: number): Before;
}

interface VesselLine {
  readonly id: VesselId;
  readonly number: number;
  readonly name: string;
  readonly retired: number;
  readonly letter: string | null;
  readonly position: number | null;
  readonly batchId: BatchId | null;
  readonly sinceMs: number | null;
}

/** The columns of a reading by the quantity they hold. */
const COLUMN_OF: readonly (readonly [QuantityKind, string])[] = [
  ['gravity', 'gravity_sg'],
  ['temperature', 'temperature_celsius'],
  ['acidity', 'acidity_grams_per_100_ml'],
  ['volume', 'volume_ul'],
  ['freeSulfite', 'free_sulfite_mg_per_l'],
  ['alcohol', 'alcohol_percent_volume'],
];

export function cellarNow({ cellar, records }: CellarSession): CellarNow {
  const { sqlite } = cellar;
  const vessels = sqlite
    .prepare(
      `SELECT vessel.id, vessel.number, vessel.name, vessel.retired, shelf.letter, vessel.position,
         fill.batch_id AS batchId, fill.since_ms AS sinceMs
       FROM vessel LEFT JOIN shelf ON shelf.id = vessel.shelf_id LEFT JOIN fill ON fill.id = vessel.id`,
    )
    .all() as VesselLine[];
  const byId = new Map(vessels.map((line) => [line.id, knownOf(line)]));
  const byName = named(vessels.flatMap((line) => namesOf(line).map((name) => [name, line.id] as const)));
  const batches = sqlite.prepare('SELECT id, code, name FROM batch').all() as {
    readonly id: BatchId;
    readonly code: string;
    readonly name: string;
  }[];
  const batchByName = named(
    batches.flatMap(({ id, code, name }) => [id, code, name].map((called) => [folded(called), id] as const)),
  );
  const standing = named(
    vessels.flatMap(({ id, batchId }) => (batchId === null ? [] : [[batchId, id] as const])),
  );
  const inVessel = sqlite.prepare('SELECT id FROM reading WHERE vessel_id = ? AND at_ms = ?').pluck();
  const ofBatch = sqlite.prepare('SELECT id FROM reading WHERE batch_id = ? AND at_ms = ?').pluck();
  const previous = COLUMN_OF.map(
    ([kind, column]) =>
      [
        kind,
        sqlite
          .prepare(
            `SELECT ${column} FROM reading WHERE vessel_id = ? AND batch_id = ? AND at_ms < ? AND ${column} IS NOT NULL
             ORDER BY at_ms DESC LIMIT 1`,
          )
          .pluck(),
      ] as const,
  );
  return {
    vesselsCalled: (text) => idsIn(byName, folded(text)).flatMap((id) => byId.get(id) ?? []),
    batchesCalled: (text) => idsIn(batchByName, folded(text)),
    vessel: (id) => byId.get(id) ?? null,
    standingOf: (batchId) => idsIn(standing, batchId).flatMap((id) => byId.get(id) ?? []),
    readingsAt({ vesselId, batchId }, atMs) {
      const ids = vesselId === undefined ? ofBatch.all(batchId, atMs) : inVessel.all(vesselId, atMs);
      return (ids as EntryId[]).flatMap((id) => records.get('reading', id)?.values ?? []);
    },
    before(vesselId, batchId, atMs) {
      const found = new Map<QuantityKind, number>();
      for (const [kind, select] of previous) {
        const value = select.get(vesselId, batchId, atMs) as number | undefined;
        if (value !== undefined) found.set(kind, value);
      }
      return found;
    },
  };
}

function knownOf(line: VesselLine): VesselKnown {
  const { id, number, retired, batchId, sinceMs } = line;
  return {
    ...{ vesselId: id, number, retired: retired === 1, label: labelOf(line) },
    standing: batchId === null || sinceMs === null ? null : { batchId, sinceMs },
  };
}

function labelOf({ name, number, letter, position }: VesselLine): string {
  const place = letter === null || position === null ? `#${number}` : `${letter}${position}`;
  return name === '' ? place : `${place}, ${name}`;
}

/** What a row may call a vessel: its number with or without its sign, its place, its name, its id. */
function namesOf({ id, number, name, letter, position }: VesselLine): string[] {
  const place = letter === null || position === null ? [] : [`${letter}${position}`];
  return [id, `#${number}`, String(number), ...place, ...(name === '' ? [] : [name])].map(folded);
}

/** The same ids under one name once each. */
function named<Id>(pairs: readonly (readonly [string, Id])[]): Map<string, Set<Id>> {
  const found = new Map<string, Set<Id>>();
  for (const [name, id] of pairs) found.set(name, (found.get(name) ?? new Set()).add(id));
  return found;
}

function idsIn<Id>(found: ReadonlyMap<string, ReadonlySet<Id>>, name: string): Id[] {
  return [...(found.get(name) ?? [])];
}

function folded(text: string): string {
  return text.normalize('NFKC').replaceAll(/\s+/gu, ' ').trim().toLowerCase();
}
