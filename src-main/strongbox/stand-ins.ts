import type { Database } from 'better-sqlite3';
import { Act } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { MemoryCellar } from '#core/ledger/memory-cellar.ts';
import type { DamagedPages } from './damaged-pages.ts';
import type { Value } from './damaged-rows.ts';
import { rowsUnder, tableRoots } from './damaged-tables.ts';

type Row = Readonly<Record<string, Value | undefined>>;

/** A line that stands for a lost one, made of what the old shelf still says. */
export interface StandIn {
  readonly act: Act;
  readonly happenedAtMs: number;
  readonly what: 'place' | 'shelf' | 'vessel' | 'culture' | 'batch';
  readonly name: string;
}

/** Makes a stand-in for what a line misses; null when the old shelf does not say. */
export type StandInFor = (
  missing: { readonly type: string },
  line: { readonly happenedAtMs: number },
  played: MemoryCellar,
) => StandIn | null;

/**
 * What was lost of the book, read off the old shelf: one lost page must not take along all that was ever done with the
 * vessels it speaks of. Only what a line needs to be there at all is made so, never an amount that moved.
 */
export function openStandIns(pages: DamagedPages, into: Database): StandInFor {
  const roots = tableRoots(pages);
  const tables = new Map<string, Row[]>();
  const rowsOf = (table: string): Row[] => {
    const known = tables.get(table);
    if (known !== undefined) return known;
    const columns = (into.pragma(`table_info("${table}")`) as { name: string }[]).map(({ name }) => name);
    const rows = [...rowsUnder(pages, roots.get(table))].map((values) =>
      Object.fromEntries(columns.map((column, index) => [column, values[index]])),
    );
    tables.set(table, rows);
    return rows;
  };
  const rowOf = (table: string, id: string) => rowsOf(table).find((row) => row['id'] === id);

  return (missing, line, played) => {
    const error = missing as LedgerError;
    if (error.type === 'NotFound') return standingFor(error.what, error.id, rowOf, line.happenedAtMs);
    if (error.type !== 'VesselEmpty') return null;
    const vessel = [...played.records('vessel').values()].find(({ number }) => number === error.vesselNumber);
    return vessel === undefined ? null : batchIn(vessel.id, rowsOf, line.happenedAtMs, played);
  };
}

function standingFor(
  what: string,
  id: string,
  rowOf: (table: string, id: string) => Row | undefined,
  happenedAtMs: number,
): StandIn | null {
  const row = ['place', 'shelf', 'vessel', 'culture'].includes(what) ? rowOf(what, id) : undefined;
  if (row === undefined) return null;
  const { name, note } = row;
  switch (what) {
    case 'place':
      return standIn('place', happenedAtMs, { kind: 'addPlace', placeId: id, name, note });
    case 'shelf': {
      const { place_id: placeId, letter, positions } = row;
      return standIn('shelf', happenedAtMs, {
        kind: 'addShelf',
        shelfId: id,
        placeId,
        name,
        letter,
        positions,
      });
    }
    case 'vessel': {
      const { number, silhouette, capacity_ul: capacityUl, mouth, material, closure } = row;
      const facts = { number, name, silhouette, capacityUl, mouth, material, closure, note };
      // Where it stood then is not known; lines that move it say so.
      return standIn('vessel', happenedAtMs, {
        ...{ kind: 'addVessel', vesselId: id, ...facts, shelfId: null, position: null },
      });
    }
    default: {
      const { sort, source, parent_culture_id: parentCultureId } = row;
      const facts = { name, sort, source, note, parentCultureId, standing: null };
      return standIn('culture', happenedAtMs, { kind: 'addCulture', cultureId: id, ...facts });
    }
  }
}

/** The batch that was begun in a vessel last before a moment, and of which no line was found. */
function batchIn(
  vesselId: string,
  rowsOf: (table: string) => Row[],
  untilMs: number,
  played: MemoryCellar,
): StandIn | null {
  const begun = rowsOf('batch')
    .filter((batch) => batch['parent_batch_id'] === null && !played.records('batch').has(String(batch['id'])))
    .flatMap((batch) => {
      const spans = rowsOf('stage_span').filter((span) => span['batch_id'] === batch['id']);
      const [first] = spans.sort((a, b) => Number(a['from_ms']) - Number(b['from_ms']));
      const isHere = first?.['vessel_id'] === vesselId && Number(batch['started_at_ms']) <= untilMs;
      return isHere ? [{ batch, stage: first['stage'] }] : [];
    })
    .sort((a, b) => Number(b.batch['started_at_ms']) - Number(a.batch['started_at_ms']))[0];
  if (begun === undefined) return null;
  const {
    id: batchId,
    code,
    name,
    ferment,
    started_ul: volumeUl,
    note,
    started_at_ms: startedAtMs,
  } = begun.batch;
  return standIn('batch', Number(startedAtMs), {
    ...{ kind: 'startBatch', batchId, code, name, ferment, vesselId, volumeUl, note },
    ...{ stage: begun.stage, ingredients: [], measured: null },
  });
}

function standIn(what: StandIn['what'], happenedAtMs: number, given: object): StandIn | null {
  const act = Act.safeParse(given);
  if (!act.success || !('name' in act.data) || !Number.isSafeInteger(happenedAtMs)) return null;
  return { act: act.data, happenedAtMs, what, name: act.data.name };
}
