import type { Database } from 'better-sqlite3';
import type { NewId } from '#core/base/ports.ts';
import type { LineAside, SalvageReport } from '#core/contract/salvage.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { openMemoryCellar } from '#core/ledger/memory-cellar.ts';
import { applyAct } from '#core/ledger/post-entry.ts';
import { balances, Posting } from '#core/ledger/postings.ts';
import { z } from 'zod';
import { canonical, postingsIn } from '../cellar/check-cellar.ts';
import { ACT_FORMAT, type BookStore, type StoredEntry } from '../ledger/book-store.ts';
import type { FoundLine } from './found-rows.ts';
import type { KeptNumbers } from './shelf-witness.ts';
import type { StandInFor } from './stand-ins.ts';

const TEXT_KEPT = 4000;
const ASIDE_TOLD = 1000;
const GAPS_TOLD = 200;

export interface SalvagedBook extends KeptNumbers {
  readonly lines: Omit<SalvageReport['lines'], 'lost' | 'highestSeen'>;
  readonly aside: LineAside[];
  readonly standIns: SalvageReport['standIns'];
  /** The highest number of a line that was taken. */
  readonly lastTaken: number;
  /** The highest number a line was found under. */
  readonly lastFound: number;
}

export interface SalvageParts {
  readonly book: BookStore;
  readonly into: Database;
  readonly standInFor: StandInFor;
  readonly newId: NewId;
  readonly nowMs: number;
}

/** How many lost lines one found line may ask stand-ins for. */
const STAND_INS_A_LINE = 12;

/**
 * Writes the lines that were found into a new book, in their order. Each is decided again over what stands before it, as
 * when it was written, with stand-ins for lost ones that the old shelf
 * still speaks of; one that is not what this program writes, does not balance, or cannot follow is put aside as text.
 * The lines get new numbers without holes; their ids stay.
 */
export function* salvageBook(
  found: { lines(): Iterable<FoundLine>; readonly distinctLines: number },
  { book, into, standInFor, newId, nowMs }: SalvageParts,
): Generator<{ readonly done: number; readonly total: number }, SalvagedBook, void> {
  const insert = into.prepare(
    `INSERT INTO entry (sequence, entry_id, request_id, kind, happened_at_ms, written_at_ms, act_format, act, postings, typed)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const hasPicture = into.prepare('SELECT 1 FROM picture WHERE checksum = ?').pluck();
  const played = openMemoryCellar();
  const ids = new Set<string>();
  const newByOld = new Map<number, number>();
  const aside: LineAside[] = [];
  const gaps: { from: number; to: number }[] = [];
  const reckonedAnew: number[] = [];
  const standIns: SalvageReport['standIns'] = [];
  let saved = 0;
  let putAside = 0;
  let last = 0;
  let unbrokenUpTo = 0;
  let lastTaken = 0;

  const setAside = (line: FoundLine, why: LineAside['why'], detail = ''): void => {
    putAside += 1;
    if (aside.length < ASIDE_TOLD) aside.push({ sequence: line.sequence, why, detail, text: textOf(line) });
  };

  /** Writes what a line misses, and in turn what that misses; false when nothing is known of it. */
  const standIn = (missing: { readonly type: string }, line: StoredEntry, depth = 0): boolean => {
    const made = depth > 4 ? null : standInFor(missing, line, played);
    if (made === null) return false;
    const id = newId() as EntryId;
    const { act, happenedAtMs, what, name } = made;
    const outcome = decided(() => applyAct(played, act, { entryId: id, happenedAtMs }));
    if (!outcome.ok) return standIn(outcome.error, line, depth + 1);
    const { postings } = outcome.value;
    insert.run(
      ...[played.entries.length + 1, id, newId(), act.kind, happenedAtMs, nowMs, ACT_FORMAT],
      ...[JSON.stringify(act), JSON.stringify(postings), '{}'],
    );
    played.append({ id, happenedAtMs, writtenAtMs: nowMs, act, postings, typed: {} }, outcome.value);
    standIns.push({ what, name });
    return true;
  };

  const take = (line: FoundLine, entry: StoredEntry): void => {
    if (ids.has(line.entry_id) || ids.has(line.request_id)) {
      setAside(line, 'Twice');
      return;
    }
    if (entry.act.kind === 'addPhoto' && hasPicture.get(entry.act.checksum) === undefined) {
      setAside(line, 'PictureLost', entry.act.checksum);
      return;
    }
    const decide = () =>
      decided(() => applyAct(played, entry.act, { entryId: entry.id, happenedAtMs: entry.happenedAtMs }));
    let outcome = decide();
    for (let left = STAND_INS_A_LINE; !outcome.ok && left > 0; left -= 1) {
      if (!standIn(outcome.error, entry)) break;
      outcome = decide();
    }
    if (!outcome.ok) {
      setAside(line, 'CannotFollow', outcome.error.type);
      return;
    }
    const postings = postingsIn(entry.actFormat, outcome.value.postings);
    const isAsWritten = canonical(postings) === canonical(entry.postings);
    const isWhole = unbrokenUpTo === line.sequence - 1;
    if (
      !isAsWritten &&
      (isWhole || canonical(volumesOf(postings)) !== canonical(volumesOf(entry.postings)))
    ) {
      setAside(line, 'OtherAmounts');
      return;
    }
    if (!isAsWritten) reckonedAnew.push(line.sequence);
    insert.run(
      ...[
        played.entries.length + 1,
        line.entry_id,
        line.request_id,
        line.kind,
        line.happened_at_ms,
        line.written_at_ms,
      ],
      ...[line.act_format, line.act, isAsWritten ? line.postings : JSON.stringify(postings), line.typed],
    );
    saved += 1;
    lastTaken = line.sequence;
    played.append({ ...entry, postings }, outcome.value);
    ids.add(line.entry_id).add(line.request_id);
    newByOld.set(line.sequence, played.entries.length);
    if (isWhole) unbrokenUpTo = line.sequence;
  };

  let done = 0;
  into.exec('BEGIN');
  for (const versions of byNumber(found.lines())) {
    const { sequence } = versions[0];
    if (sequence > last + 1 && gaps.length < GAPS_TOLD) gaps.push({ from: last + 1, to: sequence - 1 });
    last = sequence;
    const read = versions.map((line) => ({ line, ...readLine(book, line) }));
    const good = read.filter((one) => one.entry !== null);
    const [first, second] = good.length > 0 ? good : read;
    if (first === undefined) continue;
    // What the log says later stands above what the file says, as when SQLite reads them.
    const isOpen = good.length > 1 && first.line.seen === second?.line.seen;
    if (isOpen) for (const { line } of good) setAside(line, 'TwoVersions');
    else if (first.entry === null) setAside(first.line, first.why);
    else take(first.line, first.entry);
    done += versions.length;
    if (done % 200 === 0) yield { done, total: found.distinctLines };
  }
  into.exec('COMMIT');
  return {
    lines: { saved, aside: putAside, gaps, reckonedAnew },
    aside,
    standIns,
    lastTaken,
    lastFound: last,
    unbrokenUpTo,
    newByOld,
  };
}

function* byNumber(lines: Iterable<FoundLine>): Generator<readonly [FoundLine, ...FoundLine[]], void, void> {
  let versions: [FoundLine, ...FoundLine[]] | null = null;
  for (const line of lines) {
    if (versions !== null && versions[0].sequence === line.sequence) versions.push(line);
    else {
      if (versions !== null) yield versions;
      versions = [line];
    }
  }
  if (versions !== null) yield versions;
}

type ReadLine =
  { readonly entry: StoredEntry } | { readonly entry: null; readonly why: 'Unreadable' | 'Unbalanced' };

/** Reads a line as the book is always read: it must be an act of ours and balance. */
function readLine(book: BookStore, line: FoundLine): ReadLine {
  try {
    const [entry] = book.fromRows([line]);
    const isOurs = entry !== undefined && entry.act.kind === line.kind && entry.sequence >= 1;
    const inTime = line.happened_at_ms >= 0 && line.written_at_ms >= 0;
    return isOurs && inTime ? { entry } : { entry: null, why: 'Unreadable' };
  } catch {
    return { entry: null, why: isUnbalanced(line.postings) ? 'Unbalanced' : 'Unreadable' };
  }
}

function isUnbalanced(text: string): boolean {
  try {
    return !balances(z.array(Posting).parse(JSON.parse(text)));
  } catch {
    return false;
  }
}

type Decision = ReturnType<typeof applyAct>;

/** A damaged act can pass its schema and still be what nothing was ever written for. */
function decided(
  decide: () => Decision,
): Decision | { readonly ok: false; readonly error: { readonly type: string } } {
  try {
    return decide();
  } catch (error) {
    return { ok: false, error: { type: error instanceof Error ? error.name : 'unknown' } };
  }
}

function volumesOf(postings: readonly Posting[]): Record<string, number> {
  const volumes: Record<string, number> = {};
  for (const { account, deltaUl } of postings) volumes[account] = (volumes[account] ?? 0) + deltaUl;
  return Object.fromEntries(Object.entries(volumes).filter(([, deltaUl]) => deltaUl !== 0));
}

function textOf({ entry_id, happened_at_ms, written_at_ms, act, typed, postings }: FoundLine): string {
  const when = `happened ${momentOf(happened_at_ms)}, written ${momentOf(written_at_ms)}`;
  return `${entry_id}, ${when}\n${act}\n${typed}\n${postings}`.slice(0, TEXT_KEPT);
}

function momentOf(ms: number): string {
  const date = new Date(ms);
  return Number.isNaN(date.getTime()) ? String(ms) : date.toISOString();
}
