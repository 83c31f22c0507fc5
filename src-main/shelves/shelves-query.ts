import type { Database } from 'better-sqlite3';
import type { z } from 'zod';
import type { Grouping, Place, ShelfGroup, ShelfOverview, ShelfRow, Today } from '#core/contract/shelves.ts';
import { DUE_GROUPS } from '#core/contract/shelves.ts';
import type { Silhouette, Stage } from '#core/ledger/stage.ts';
import { SILHOUETTES, STAGES } from '#core/ledger/stage.ts';
import { likeAnywhere } from '../find/fold-for-search.ts';

type Day = z.infer<typeof Today>;

export interface PageRequest {
  readonly grouping: Grouping;
  readonly key: string;
  readonly today: Day;
  readonly offset: number;
  readonly limit: number;
}

export interface ChooseRequest {
  readonly wanted: 'empty' | 'filled' | 'any' | 'holdsCulture';
  readonly text: string;
  readonly limit: number;
}

/** Reads the shelf. A page costs what it shows, however many vessels stand elsewhere. */
export interface ShelvesQuery {
  overview(grouping: Grouping, today: Day, nowMs: number): ShelfOverview;
  page(request: PageRequest): { rows: ShelfRow[] };
  places(): Place[];
  choose(request: ChooseRequest): ShelfRow[];
}

/** The week a due tag looks ahead. */
const WEEK_MS = 7 * 86_400_000;
const DUE_GROUP_SQL = `CASE WHEN due_ideal_ms IS NULL THEN 'nothing' WHEN due_latest_ms < @startMs THEN 'late'
  WHEN due_ideal_ms < @endMs THEN 'today' WHEN due_ideal_ms < @weekMs THEN 'week' ELSE 'later' END`;
/** A due group as ranges of the index, so that a page of it never walks the others. */
const DUE_WHERE = {
  late: 'due_ideal_ms IS NOT NULL AND due_ideal_ms < @endMs AND due_latest_ms < @startMs',
  today: 'due_ideal_ms < @endMs AND due_latest_ms >= @startMs',
  week: 'due_ideal_ms >= @endMs AND due_ideal_ms < @weekMs AND due_latest_ms >= @startMs',
  later: 'due_ideal_ms >= @weekMs AND due_latest_ms >= @startMs',
  nothing: 'due_ideal_ms IS NULL',
} as const;
export const UNPLACED = 'unplaced';
/** The largest capacity of each silhouette, one column a silhouette. */
const TALLEST_SQL = SILHOUETTES.map(
  (silhouette) => `MAX(CASE silhouette WHEN '${silhouette}' THEN capacity_ul END) AS "${silhouette}"`,
).join(', ');

const bounds = ({ startMs, endMs }: Day) => ({ startMs, endMs, weekMs: endMs + WEEK_MS });
const shown = (rows: unknown[]): ShelfRow[] => rows.map((row) => JSON.parse(row as string) as ShelfRow);

export function openShelvesQuery(sqlite: Database): ShelvesQuery {
  const prepare = (sql: string) => sqlite.prepare(sql);
  const tally = (keySql: string, groupSql = keySql) =>
    prepare(
      `SELECT ${keySql} AS key, COUNT(*) AS vesselCount, SUM(in_use) AS inUse,
         SUM(due_ideal_ms < @endMs) AS dueCount, SUM(due_latest_ms < @startMs) AS lateCount, ${TALLEST_SQL}
       FROM shelf_row GROUP BY ${groupSql}`,
    );
  const tallies = {
    // By the bare column, so that the rows come in the order of their index and nothing is sorted.
    place: tally(`COALESCE(shelf_id, '${UNPLACED}')`, 'shelf_id'),
    stage: tally('stage', 'stage_rank'),
    due: tally(DUE_GROUP_SQL.replaceAll('@weekMs', '(@endMs + 604800000)')),
  };
  const stageCounts = prepare('SELECT stage, COUNT(*) AS n FROM shelf_row GROUP BY stage_rank');
  const shelves = prepare(
    `SELECT shelf.id AS key, place.name AS placeName, shelf.name AS shelfName, shelf.letter, shelf.positions
     FROM shelf JOIN place ON place.id = shelf.place_id ORDER BY place.rowid, length(shelf.letter), shelf.letter`,
  );
  const paged = (where: string, order: string) =>
    prepare(
      `SELECT shown FROM shelf_row WHERE ${where} ORDER BY ${order} LIMIT @limit OFFSET @offset`,
    ).pluck();
  const byShelf = paged('shelf_id = @key', 'position');
  const unplaced = paged('shelf_id IS NULL', 'number');
  const byStage = paged('stage_rank = @key', 'number');
  const byDue = new Map<string, ReturnType<typeof paged>>(
    DUE_GROUPS.map((group) => [
      group,
      paged(DUE_WHERE[group], group === 'nothing' ? 'number' : 'due_ideal_ms, number'),
    ]),
  );
  const places = prepare('SELECT id AS placeId, name, note FROM place ORDER BY rowid');
  const placeShelves = prepare(
    `SELECT id AS shelfId, name, letter, positions FROM shelf WHERE place_id = ? ORDER BY length(letter), letter`,
  );
  const taken = prepare('SELECT position FROM vessel WHERE shelf_id = ? ORDER BY position').pluck();
  const choose = (where: string) =>
    prepare(
      `SELECT shown FROM shelf_row WHERE ${where} AND (search LIKE @like ESCAPE '\\')
       ORDER BY (shelf_id IS NULL), shelf_id, position, number LIMIT @limit`,
    ).pluck();
  const choices = {
    empty: choose('in_use = 0'),
    filled: choose('in_use = 1'),
    any: choose('1 = 1'),
    holdsCulture: choose(`stage = 'culture'`),
  };

  const pageOf = ({ grouping, key }: PageRequest) => {
    switch (grouping) {
      case 'place':
        return key === UNPLACED ? unplaced : byShelf;
      case 'stage':
        return byStage;
      case 'due':
        return byDue.get(key) ?? null;
    }
  };

  return {
    overview(grouping, today, nowMs) {
      const tallied = tallies[grouping].all({ startMs: today.startMs, endMs: today.endMs }) as Tally[];
      const groups = named(grouping, tallied, grouping === 'place' ? (shelves.all() as ShelfNames[]) : []);
      const sum = (pick: (t: Tally) => number | null): number =>
        tallied.reduce((n, t) => n + (pick(t) ?? 0), 0);
      const lateCount = sum((t) => t.lateCount);
      const counts = new Map((stageCounts.all() as { stage: Stage; n: number }[]).map((s) => [s.stage, s.n]));
      return {
        ...{ grouping, groups, nowMs, lateCount, todayCount: sum((t) => t.dueCount) - lateCount },
        ...{ vesselCount: sum((t) => t.vesselCount), inUse: sum((t) => t.inUse) },
        countsByStage: Object.fromEntries(STAGES.map((stage) => [stage, counts.get(stage) ?? 0])) as Record<
          Stage,
          number
        >,
      };
    },
    page(request) {
      const statement = pageOf(request);
      if (statement === null) return { rows: [] };
      const { today, offset, limit, grouping } = request;
      const key = grouping === 'stage' ? STAGES.indexOf(request.key as Stage) : request.key;
      return { rows: shown(statement.all({ ...bounds(today), key, offset, limit })) };
    },
    places() {
      return (places.all() as Omit<Place, 'shelves'>[]).map((place) => ({
        ...place,
        shelves: (placeShelves.all(place.placeId) as Omit<Place['shelves'][number], 'firstFree'>[]).map(
          (shelf) => ({
            ...shelf,
            firstFree: firstFree(taken.all(shelf.shelfId) as number[], shelf.positions),
          }),
        ),
      }));
    },
    choose({ wanted, text, limit }) {
      return shown(choices[wanted].all({ like: likeAnywhere(text.trim()), limit }));
    },
  };
}

interface Tally extends Readonly<Record<Silhouette, number | null>> {
  readonly key: string;
  readonly vesselCount: number;
  readonly inUse: number;
  readonly dueCount: number | null;
  readonly lateCount: number | null;
}
type ShelfNames = Pick<ShelfGroup, 'key' | 'placeName' | 'shelfName' | 'letter' | 'positions'>;

function named(grouping: Grouping, tallied: readonly Tally[], shelves: readonly ShelfNames[]): ShelfGroup[] {
  const unnamed = (key: string): ShelfNames => ({
    key,
    placeName: null,
    shelfName: null,
    letter: null,
    positions: null,
  });
  const byKey = new Map(tallied.map((tally) => [tally.key, tally]));
  const has = (key: string): boolean => byKey.has(key);
  switch (grouping) {
    case 'place':
      // Every shelf is drawn, empty ones too; what stands nowhere comes last.
      return [...shelves, ...(has(UNPLACED) ? [unnamed(UNPLACED)] : [])].map((s) => counted(s, byKey));
    case 'stage':
      return STAGES.filter(has).map((stage) => counted(unnamed(stage), byKey));
    case 'due':
      return DUE_GROUPS.filter(has).map((group) => counted(unnamed(group), byKey));
  }
}

function counted(names: ShelfNames, byKey: ReadonlyMap<string, Tally>): ShelfGroup {
  const tally = byKey.get(names.key);
  return {
    ...names,
    ...{ vesselCount: tally?.vesselCount ?? 0, inUse: tally?.inUse ?? 0, dueCount: tally?.dueCount ?? 0 },
    tallest: SILHOUETTES.flatMap((silhouette) => {
      const capacityUl = tally?.[silhouette] ?? null;
      return capacityUl === null ? [] : [{ silhouette, capacityUl }];
    }),
  };
}

function firstFree(taken: readonly number[], positions: number): number | null {
  const used = new Set(taken);
  for (let position = 1; position <= positions; position += 1) if (!used.has(position)) return position;
  return null;
}
