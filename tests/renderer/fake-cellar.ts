import type { AboutCellar } from '#core/contract/cellar.ts';
import type { CultureLines, CultureRow } from '#core/contract/cultures.ts';
import type { Found } from '#core/contract/find.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { EntryRow, Posted } from '#core/contract/ledger.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Act } from '#core/ledger/act.ts';
import type { BatchId, CultureId, EntryId, ShelfId, VesselId } from '#core/ledger/ids.ts';

/** Facts of a made-up cellar in the shapes of the contract, for tests of single screens without a host. */
export const NOW_MS = Date.UTC(2026, 10, 25, 14, 2);
const DAY_MS = 86_400_000;

export const uuid = (n: number): string => `018f3a5c-7b1e-7c22-9d3f-${String(n).padStart(12, '0')}`;

export function aboutCellar(change: Partial<AboutCellar> = {}): AboutCellar {
  return {
    name: 'Home Farm cellar',
    begun: true,
    isSample: false,
    file: '/home/k/home.undercroft',
    readOnly: false,
    unopened: null,
    houseRules: HOUSE_RULES_AT_FIRST,
    entryCount: 12,
    vesselCount: 3,
    batchCount: 2,
    cultureCount: 1,
    lastWrittenAtMs: NOW_MS,
    nowMs: NOW_MS,
    programVersion: '0.1.0',
    fileVersion: 1,
    ...change,
  };
}

export function shelfRow(change: Partial<ShelfRow> = {}): ShelfRow {
  return {
    vesselId: uuid(1) as VesselId,
    number: 1,
    vesselName: '',
    silhouette: 'demijohn',
    capacityUl: 5_000_000,
    mouth: 'narrow',
    material: 'glass',
    closure: 'airlock',
    shelfId: uuid(90) as ShelfId,
    spot: 'B1',
    position: 1,
    stage: 'yeast',
    volumeUl: 4_500_000,
    onLees: false,
    batchId: uuid(11) as BatchId,
    batchCode: 'CI-26-001',
    batchName: 'Kingston cider',
    ferment: 'cider',
    startedAtMs: NOW_MS - 12 * DAY_MS,
    sinceMs: NOW_MS - 12 * DAY_MS,
    stageSinceMs: NOW_MS - 12 * DAY_MS,
    headline: { kind: 'gravity', sg: 1.02, atMs: NOW_MS - DAY_MS, uncertainty: null },
    cultureName: null,
    pull: null,
    fedAtMs: null,
    due: null,
    closureConcern: null,
    ...{ holder: '', cleanedAtMs: null, cleanedHow: null, restUntilMs: null },
    ...change,
  };
}

export function cultureRow(change: Partial<CultureRow> = {}): CultureRow {
  return {
    cultureId: uuid(5) as CultureId,
    name: 'Old Bess',
    sort: 'mother',
    source: 'the village hall',
    note: '',
    sinceMs: NOW_MS - 400 * DAY_MS,
    parentCultureId: null,
    parentName: null,
    childCount: 1,
    pullCount: 1,
    lastPullAtMs: NOW_MS - 34 * DAY_MS,
    fedAtMs: NOW_MS - 9 * DAY_MS,
    keptIn: [shelfRow({ vesselId: uuid(2) as VesselId, number: 2, spot: 'A1', stage: 'culture' })],
    workingCount: 1,
    due: null,
    ...change,
  };
}

export function cultureLines(change: Partial<CultureLines> = {}): CultureLines {
  return {
    culture: cultureRow(),
    ancestors: [{ cultureId: uuid(4) as CultureId, name: 'First mother' }],
    children: [{ cultureId: uuid(6) as CultureId, name: 'Young Bess', sort: 'mother', sinceMs: NOW_MS }],
    pulls: [
      {
        entryId: uuid(70) as EntryId,
        number: 3,
        atMs: NOW_MS - 34 * DAY_MS,
        vesselId: uuid(3) as VesselId,
        vesselNumber: 3,
        volumeUl: 300_000,
        batchId: uuid(13) as BatchId,
        batchCode: 'AV-26-003',
        batchName: 'Apple vinegar 3',
        stage: 'vinegar',
      },
    ],
    ...change,
  };
}

export const NOTHING_FOUND: Found = { vessels: [], batches: [], cultures: [], days: [] };

export function entryOf(act: Act, change: Partial<EntryRow> = {}): EntryRow {
  return {
    entryId: uuid(60) as EntryId,
    sequence: 1,
    happenedAtMs: NOW_MS,
    writtenAtMs: NOW_MS,
    act,
    postings: [],
    typed: {},
    struck: false,
    restated: null,
    names: { [uuid(1)]: 'Kingston cider', [uuid(5)]: 'Old Bess' },
    reversed: null,
    ...change,
  };
}

export function posted(entry: EntryRow): Posted {
  return { entry, rows: [], goneVesselIds: [], undoState: { undo: entry, redo: null } };
}
