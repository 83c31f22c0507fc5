import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { parseChalk } from '#core/quantities/parse-chalk.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import type { Understood } from '#core/quantities/understood.ts';
import type { BookFinding } from '#core/ferments/book-findings.ts';
import type { Act, ActDraft, ActOf } from '#core/ledger/act.ts';
import type { BatchId, CultureId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';

/** What readings find against the book, as far as the story settles it. */
export type Finding = Pick<BookFinding, 'readingId' | 'steps' | 'doubt'>;

/** A picture of the story: its bytes as they are kept, and the same small. */
export interface Drawn {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly picture: Uint8Array;
  readonly thumbnail: Uint8Array;
}

/** Who writes the story down. */
export interface Teller {
  /** Writes one act and hands it back as written, with the ids it was given. */
  tell(act: ActDraft, happenedAtMs: number, typed: Readonly<Record<string, string>>): Act;
  /** Keeps a picture with the act that tells of it. */
  show(drawn: Drawn, about: ShownAbout, caption: string, happenedAtMs: number): void;
  /** What readings find against the book in a vessel at that moment. */
  findings(vesselId: VesselId, atMs: number): readonly Finding[];
}
type ShownAbout = ActOf<'addPhoto'>['about'];

/** The cellar as the story knows it: things by the names the story gives them, and the pen that writes. */
export interface ToldCellar {
  readonly write: (act: ActDraft, typed?: Readonly<Record<string, string>>) => Act;
  readonly show: (drawn: Drawn, about: ShownAbout, caption: string) => void;
  readonly findings: (vesselId: VesselId) => readonly Finding[];
  readonly places: Names<PlaceId>;
  readonly shelves: Names<ShelfId>;
  readonly vessels: Names<VesselId>;
  readonly cultures: Names<CultureId>;
  readonly batches: Names<BatchId>;
}

export interface Names<Id> {
  call(name: string, id: Id): void;
  of(name: string): Id;
  all(): readonly Id[];
}

/** One thing that was done, told to the cellar at its time. */
export type Doing = (cellar: ToldCellar) => void;

/** A day's visit to the cellar: when it began, as `2026-03-14 18:30` in UTC, and what was done, in order. */
export type Visit = readonly [when: string, ...doings: Doing[]];

const BETWEEN_DOINGS_MS = 4 * 60_000;

/**
 * Tells all visits in the order in which they happened, whatever file they stand in. Throws for a time or a name that
 * the story got wrong.
 */
export function tellVisits(visits: readonly Visit[], teller: Teller): void {
  const names = <Id>(what: string): Names<Id> => {
    const known = new Map<string, Id>();
    return {
      call: (name, id) => known.set(name, id),
      all: () => [...known.values()],
      of(name) {
        const id = known.get(name);
        if (id === undefined) throw new Error(`the story knows no ${what} called ${name} yet`);
        return id;
      },
    };
  };
  const called = {
    places: names<PlaceId>('place'),
    shelves: names<ShelfId>('shelf'),
    vessels: names<VesselId>('vessel'),
    cultures: names<CultureId>('culture'),
    batches: names<BatchId>('batch'),
  };
  const doings = visits.flatMap(([when, ...done]) =>
    done.map((doing, index) => ({ when, doing, atMs: momentMs(when) + index * BETWEEN_DOINGS_MS })),
  );
  for (const { when, doing, atMs } of doings.sort((a, b) => a.atMs - b.atMs)) {
    try {
      doing({
        ...called,
        write: (act, typed) => teller.tell(act, atMs, typed ?? {}),
        show: (drawn, about, caption) => {
          teller.show(drawn, about, caption, atMs);
        },
        findings: (vesselId) => teller.findings(vesselId, atMs),
      });
    } catch (error) {
      throw new Error(`at the visit of ${when}`, { cause: error });
    }
  }
}

/** Epoch ms of a moment as the story writes it. */
export function momentMs(when: string): number {
  if (!/^\d{4}-\d{2}-\d{2} \d{2}:\d{2}$/.test(when)) throw new Error(`${when} is no time of the story`);
  const ms = Date.parse(`${when.replace(' ', 'T')}:00Z`);
  if (Number.isNaN(ms)) throw new Error(`${when} is no time of the story`);
  return ms;
}

/** Microlitres of a volume as a person types it, such as `4.8 L`; 0 for an empty text. */
export function ul(text: string): number {
  if (text === '') return 0;
  const understood = parseQuantity('volume', text, METRIC_HOUSE);
  if (!understood.ok) throw new Error(`${text} is not read as a volume`);
  return understood.value.volumeUl;
}

/** Micrograms of a weight as a person types it; null for an amount that is no weight, such as `3 tsp`. */
export function ug(text: string): number | null {
  const understood = parseQuantity('mass', text, METRIC_HOUSE);
  return understood.ok && !understood.value.unitAssumed ? understood.value.massUg : null;
}

/** What one line of readings means, such as `1.012 19C` or `4.1 % pH 3.2`. */
export function readings(line: string): readonly Understood[] {
  const chalk = parseChalk(`A1 ${line}`, METRIC_HOUSE);
  if (!chalk.ok) throw new Error(`${line} is not read: ${JSON.stringify(chalk.error)}`);
  return chalk.value.readings;
}
