import { randomBytes } from 'node:crypto';
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { StrongboxEvent } from '#core/contract/strongbox.ts';

/** What happened to backups and checks on this computer, newest first. */
export interface History {
  events(): readonly StrongboxEvent[];
  add(event: StrongboxEvent): void;
}

const KEPT = 1000;
/** The file is written anew only when it has grown so far beyond what is kept. */
const WRITTEN_MAX = 2000;

/** A line of JSON an event. Two windows may add to it; a line that cannot be read is passed over. */
export function openHistory(file: string): History {
  let known: { readonly stamp: string; readonly events: readonly StrongboxEvent[] } = {
    stamp: '',
    events: [],
  };
  /** What could not be written, for instance on a full disk: it is known meanwhile, and written with the next. */
  let unwritten: readonly StrongboxEvent[] = [];
  const read = (): readonly StrongboxEvent[] => {
    const stat = statSync(file, { throwIfNoEntry: false });
    if (stat === undefined) return [];
    const stamp = `${stat.ino} ${stat.size} ${stat.mtimeMs}`;
    if (stamp !== known.stamp) known = { stamp, events: readLines() };
    return known.events;
  };
  const readLines = (): StrongboxEvent[] =>
    readFileSync(file, 'utf8')
      .split('\n')
      .flatMap((line) => {
        const event = eventIn(line);
        return event === null ? [] : [event];
      })
      .reverse();
  /** A line that was cut off by a full disk is left to itself. */
  const startOfLine = (): string =>
    existsSync(file) && !readFileSync(file, 'utf8').endsWith('\n') ? '\n' : '';
  return {
    events: () => [...unwritten.toReversed(), ...read()].slice(0, KEPT),
    add(event) {
      unwritten = [...unwritten, event];
      try {
        mkdirSync(dirname(file), { recursive: true });
        appendFileSync(file, `${startOfLine()}${linesOf(unwritten)}`, { mode: 0o600 });
        unwritten = [];
        const all = read();
        if (all.length <= WRITTEN_MAX) return;
        const passing = `${file}.${randomBytes(6).toString('hex')}`;
        writeFileSync(passing, linesOf(all.slice(0, KEPT).toReversed()), { mode: 0o600 });
        renameSync(passing, file);
      } catch {
        // A list that cannot be kept takes nothing away from what was done.
      }
    },
  };
}

function linesOf(events: readonly StrongboxEvent[]): string {
  return events.map((event) => `${JSON.stringify(event)}\n`).join('');
}

function eventIn(line: string): StrongboxEvent | null {
  try {
    const event = StrongboxEvent.safeParse(JSON.parse(line));
    return event.success ? event.data : null;
  } catch {
    return null;
  }
}
