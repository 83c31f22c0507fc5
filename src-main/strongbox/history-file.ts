import { appendFileSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
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
  return {
    events: () => read().slice(0, KEPT),
    add(event) {
      mkdirSync(dirname(file), { recursive: true });
      appendFileSync(file, `${JSON.stringify(event)}\n`, { mode: 0o600 });
      const all = read();
      if (all.length <= WRITTEN_MAX) return;
      const kept = all.slice(0, KEPT).reverse();
      writeFileSync(`${file}.new`, kept.map((one) => `${JSON.stringify(one)}\n`).join(''), { mode: 0o600 });
      renameSync(`${file}.new`, file);
    },
  };
}

function eventIn(line: string): StrongboxEvent | null {
  try {
    const event = StrongboxEvent.safeParse(JSON.parse(line));
    return event.success ? event.data : null;
  } catch {
    return null;
  }
}
