import { arch, platform, release } from 'node:os';
import { getTableName } from 'drizzle-orm';
import type { StrongboxState } from '#core/contract/strongbox.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { BACKUP_FORMAT } from '#core/strongbox/manifest.ts';
import { aboutCellar } from '../cellar/about-cellar.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';

/**
 * What helps to find a fault, and nothing that was written by a keeper: no name, note, taste, typed text, picture or path.
 * It goes nowhere by itself.
 */
export function diagnosticsText(services: CellarServices, state: StrongboxState, nowMs: number): string {
  const { sqlite } = services.session.cellar;
  const about = aboutCellar(services);
  const count = (table: string): unknown => sqlite.prepare(`SELECT COUNT(*) FROM "${table}"`).pluck().get();
  const kinds = sqlite
    .prepare('SELECT kind, COUNT(*) AS lines FROM entry GROUP BY kind ORDER BY kind')
    .all() as {
    kind: string;
    lines: number;
  }[];
  const said = {
    about: 'Undercroft diagnostics. No names, notes or paths are in it.',
    madeAt: new Date(nowMs).toISOString(),
    versions: {
      program: about.programVersion,
      cellarFile: about.fileVersion,
      backupFormat: BACKUP_FORMAT,
      node: process.versions.node,
      electron: Reflect.get(process.versions, 'electron') as string | undefined,
      sqlite: sqlite.prepare('SELECT sqlite_version()').pluck().get(),
    },
    system: { platform: platform(), release: release(), arch: arch() },
    file: {
      pageBytes: sqlite.pragma('page_size', { simple: true }),
      pages: sqlite.pragma('page_count', { simple: true }),
      freePages: sqlite.pragma('freelist_count', { simple: true }),
      journal: sqlite.pragma('journal_mode', { simple: true }),
    },
    houseRules: about.houseRules,
    records: Object.fromEntries(RECORD_KINDS.map((kind) => [kind, count(getTableName(RECORD_TABLES[kind]))])),
    linesByKind: Object.fromEntries(kinds.map(({ kind, lines }) => [kind, lines])),
    backups: {
      settings: { ...state.settings, folders: state.settings.folders.length },
      folders: state.folders.map(({ own, state: folderState }) => ({ own, state: folderState })),
      last: state.last === null ? null : { at: iso(state.last.atMs), reason: state.last.reason },
      linesSince: state.linesSince,
    },
    history: state.history.slice(0, 50).map(withoutNames),
  };
  return `${JSON.stringify(said, null, 2)}\n`;
}

function withoutNames(event: StrongboxState['history'][number]): object {
  const at = iso(event.atMs);
  switch (event.kind) {
    case 'backup':
      return {
        ...{ at, kind: event.kind, reason: event.reason, bytes: event.bytes, encrypted: event.encrypted },
        refused: event.refusal?.type ?? null,
        elsewhere: event.elsewhere.map(({ refusal }) => refusal?.type ?? 'there'),
        dropped: event.dropped.length,
      };
    case 'check':
      return {
        ...{ at, kind: event.kind, how: event.how, sound: event.sound, entries: event.entries },
        faults: event.faults.map(({ type }) => type),
      };
    case 'restore':
      return { at, kind: event.kind, of: iso(event.madeAtMs) };
    case 'salvage':
      return { at, kind: event.kind, entries: event.entries };
  }
}

function iso(atMs: number): string {
  return new Date(atMs).toISOString();
}
