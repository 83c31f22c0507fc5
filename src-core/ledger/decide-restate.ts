import type { Act, ActOf } from './act.ts';
import type { CellarReader, EarlierEntry, Subject } from './cellar-reader.ts';
import { openChangeSet, type ChangeSet } from './change-set.ts';
import type { ContractionAnew } from './contraction.ts';
import type { ActContext, Outcome } from './entry.ts';
import { misfitOf } from './fit-again.ts';
import type { CultureId, EntryId } from './ids.ts';
import type { LedgerError, PlainLedgerError } from './ledger-error.ts';
import { negateMasses } from './masses.ts';
import type { Change, RecordKind, RecordsByKind } from './records.ts';
import { sameRecord } from './same-record.ts';

type AnyRecord = RecordsByKind[RecordKind];
type Decide = (book: ChangeSet, act: Act) => LedgerError | null;
/** How an entry is played again; the contractions are those that were written down, where they are not reckoned. */
interface Playing {
  readonly decide: Decide;
  readonly shrunk: readonly ContractionAnew[];
}
type Correction = ActOf<'restate'>['corrections'][number];

/** A later entry that could not have been written had the earlier ones been as they are now told. */
export interface Refusal {
  readonly entryId: EntryId;
  readonly error: PlainLedgerError;
}

/**
 * Tells earlier entries anew and plays again what follows from them: only the entries that meet a record which
 * now differs, and no further than it differs. The lines themselves stay as they were written; the change is one
 * entry of its own, so that it is undone like any other. Refused, with every later entry that becomes impossible,
 * when one does; then nothing is done.
 */
export function restate(book: ChangeSet, act: ActOf<'restate'>, decide: Decide): LedgerError | null {
  const { reader } = book;
  const corrections = new Map<EntryId, Correction>();
  for (const correction of act.corrections) {
    const target = reader.entry(correction.entryId);
    if (target === null) {
      return { type: 'NotFound', field: 'entryId', what: 'entry', id: correction.entryId };
    }
    if (target.act.kind === 'reverse' || target.act.kind === 'restate') {
      return { type: 'CannotReverse', field: 'entryId', kind: target.act.kind };
    }
    if (reader.get('strike', target.id) !== null) return { type: 'AlreadyStruck', field: 'entryId' };
    corrections.set(target.id, correction);
  }
  const telling = tellAnew(book, corrections, { decide, shrunk: act.contractions ?? [] });
  if (telling.refusals.length > 0) {
    return { type: 'RestateImpossible', field: 'entryId', refusals: [...telling.refusals] };
  }
  const resting = leftBehind(reader, telling);
  if (resting.length > 0) return { type: 'LaterEntriesRest', field: 'entryId', entryIds: resting };
  writeDown(book, telling);
  for (const { entry, outcome } of telling.retold) {
    const shrunk = outcome?.contractions ?? [];
    book.noteContractions(shrunk.map((each) => ({ entryId: entry.id, ...each })));
    if (outcome !== null && !corrections.has(entry.id)) book.noteRetold(entry.id);
  }
  for (const { kind, id } of telling.changed.values()) {
    const misfit = misfitOf(book, kind, id);
    if (misfit !== null) return misfit;
  }
  return null;
}

interface Telling {
  readonly corrections: ReadonlyMap<EntryId, Correction>;
  /** Records that end up other than they are, by key. */
  readonly changed: ReadonlyMap<string, Difference>;
  readonly retold: readonly { readonly entry: EarlierEntry; readonly outcome: Outcome | null }[];
  readonly refusals: readonly Refusal[];
}

interface Difference {
  readonly kind: RecordKind;
  readonly id: string;
  readonly now: AnyRecord | null;
}

/**
 * Goes forward from the earliest entry that is told anew. What was told anew before of the same vessels and batches is
 * taken along, and so is an entry struck later than that: then the way begins again with them.
 */
function tellAnew(
  book: ChangeSet,
  asked: ReadonlyMap<EntryId, Correction>,
  { decide, shrunk }: Playing,
): Telling {
  const seeds = new Set<EntryId>(asked.keys());
  const before = ownSequence(book);
  const restatings = book.reader.restatings().filter(({ sequence }) => sequence < before);
  for (;;) {
    const along = restatings.filter(({ id }) => seeds.has(id));
    const earlier = along.flatMap(({ act }) => (act.kind === 'restate' ? act.corrections : []));
    const corrections = new Map(earlier.map((correction) => [correction.entryId, correction]));
    for (const [id, correction] of asked) corrections.set(id, correction);
    for (const { entryId } of earlier) seeds.add(entryId);
    const walk = new Walk(book, corrections, seeds, { decide, shrunk });
    const missing = walk.run() ?? restatings.filter((one) => !seeds.has(one.id) && walk.touches(one));
    if (missing.length === 0) return walk.telling();
    for (const { id } of missing) seeds.add(id);
  }
}

/** The number of the telling itself when the book is replayed, which knows all later lines; above all when it is new. */
function ownSequence({ reader, context }: ChangeSet): number {
  return reader.entry(context.entryId)?.sequence ?? Number.MAX_SAFE_INTEGER;
}

/** One way through the book from the seeds on, with the records that differ from what they were at each step. */
class Walk {
  readonly #reader: CellarReader;
  readonly #writer: ActContext;
  readonly #before: number;
  readonly #corrections: ReadonlyMap<EntryId, Correction>;
  /** Entries that are told in any case: the seeds, and the reversals of what is told. */
  readonly #waiting = new Map<EntryId, EarlierEntry>();
  readonly #playing: Playing;
  readonly #dirty = new Map<string, Difference>();
  readonly #retold: { entry: EarlierEntry; outcome: Outcome | null }[] = [];
  readonly #refusals: Refusal[] = [];
  readonly #done = new Set<EntryId>();
  /** The vessels, batches and other records that what is told has to do with. */
  readonly #touched = new Set<string>();
  readonly #about = new Map<string, EarlierEntry | null>();

  constructor(
    book: ChangeSet,
    corrections: ReadonlyMap<EntryId, Correction>,
    seeds: ReadonlySet<EntryId>,
    playing: Playing,
  ) {
    this.#reader = book.reader;
    this.#writer = book.context;
    this.#before = ownSequence(book);
    this.#corrections = corrections;
    this.#playing = playing;
    for (const id of seeds) {
      const entry = this.#reader.entry(id);
      if (entry !== null) this.#waiting.set(id, entry);
    }
  }

  /** Null when it came to its end; else what has to be told too, from earlier on. */
  run(): readonly { readonly id: EntryId }[] | null {
    let sequence = 0;
    for (;;) {
      const next = this.#next(sequence);
      if (next === null) return null;
      sequence = next.sequence;
      const missing = this.#missingFor(next);
      if (missing !== null) return [{ id: missing }];
      this.#tell(next);
    }
  }

  /** True when an earlier telling anew, or what it told, has to do with anything that was told here. */
  touches(restating: EarlierEntry): boolean {
    const { act } = restating;
    const told = act.kind === 'restate' ? act.corrections.map(({ entryId }) => entryId) : [];
    const entries = [restating, ...told.map((id) => this.#reader.entry(id))];
    const named = entries.map((entry) => JSON.stringify([entry?.act, entry?.images])).join();
    return [...this.#touched].some((id) => named.includes(id));
  }

  telling(): Telling {
    const changed = new Map(this.#dirty);
    return {
      corrections: this.#corrections,
      changed,
      retold: this.#retold,
      refusals: this.#refusals,
    };
  }

  #next(after: number): EarlierEntry | null {
    let best: EarlierEntry | null = null;
    for (const entry of this.#waiting.values()) {
      if (entry.sequence > after && (best === null || entry.sequence < best.sequence)) best = entry;
    }
    const found = [
      ...this.#settling(),
      ...this.#subjects().map((subject) => this.#nextAbout(subject, after)),
    ];
    for (const entry of [...found, ...this.#writing(after)]) {
      if (entry === null || entry.sequence <= after || entry.sequence >= this.#before) continue;
      if (best === null || entry.sequence < best.sequence) best = entry;
    }
    return best;
  }

  /** Asked many times over the same stretch of the book, so each answer is kept. */
  #nextAbout(subject: Subject, after: number): EarlierEntry | null {
    return this.#askedOnce(`${subject.kind}:${subject.id}:${after}`, () =>
      this.#reader.nextAbout(subject, after),
    );
  }

  /** What next wrote a record that differs and belongs to no vessel, batch or culture: a place, a shelf. */
  #writing(after: number): readonly (EarlierEntry | null)[] {
    return [...this.#dirty.values()]
      .filter(({ kind, id, now }) => subjectOf(kind, id, now ?? this.#reader.get(kind, id)) === null)
      .map(({ kind, id }) =>
        this.#askedOnce(`written ${keyOf(kind, id)}:${after}`, () =>
          this.#reader.nextWriting(kind, id, after),
        ),
      );
  }

  #askedOnce(key: string, ask: () => EarlierEntry | null): EarlierEntry | null {
    const known = this.#about.get(key);
    if (known !== undefined) return known;
    const found = ask();
    this.#about.set(key, found);
    return found;
  }

  /** What the records that differ belong to: the entries that speak of these may come out otherwise. */
  #subjects(): readonly Subject[] {
    const subjects = new Map<string, Subject>();
    for (const { kind, id, now } of this.#dirty.values()) {
      const subject = subjectOf(kind, id, now ?? this.#reader.get(kind, id));
      if (subject !== null) subjects.set(`${subject.kind}:${subject.id}`, subject);
    }
    return [...subjects.values()];
  }

  /** What settled a vessel by a reading that now differs. */
  #settling(): readonly EarlierEntry[] {
    const readings = [...this.#dirty.values()].filter(({ kind }) => kind === 'reading');
    return readings.flatMap(({ id }) => this.#reader.settledBy(id));
  }

  /** What has to be told before an entry can be: the entry it took back, or itself with what it told anew. */
  #missingFor(entry: EarlierEntry): EntryId | null {
    if (!this.#meets(entry)) return null;
    const { act } = entry;
    if (act.kind === 'reverse' && !this.#done.has(act.entryId)) return act.entryId;
    const isUnknown = act.kind === 'restate' && this.#isAlive(entry.id) && !this.#waiting.has(entry.id);
    return isUnknown ? entry.id : null;
  }

  /** True when the entry wrote or read a record that now differs, or is itself told anew. */
  #meets(entry: EarlierEntry): boolean {
    if (this.#waiting.has(entry.id)) return true;
    if (entry.images.some(({ kind, id }) => this.#dirty.has(keyOf(kind, id)))) return true;
    const named = JSON.stringify(entry.act);
    return [...this.#dirty.values()].some(({ id }) => named.includes(id));
  }

  #isAlive(id: EntryId): boolean {
    return this.#reader.get('strike', id) === null;
  }

  #tell(entry: EarlierEntry): void {
    if (!this.#meets(entry)) return;
    this.#done.add(entry.id);
    // What took it back or brought it back is told with it, whatever differs at that moment.
    for (const reversal of this.#reader.reversalsOf(entry.id)) {
      if (reversal.sequence < this.#before) this.#waiting.set(reversal.id, reversal);
    }
    const correction = this.#corrections.get(entry.id);
    const isWork = entry.act.kind === 'reverse' || entry.act.kind === 'restate';
    const act =
      isWork || !this.#isAlive(entry.id) ? null : correction === undefined ? entry.act : correction.act;
    const outcome = act === null ? null : this.#decideAgain(entry, act, correction?.happenedAtMs);
    this.#retold.push({ entry, outcome });
    for (const { id } of [...entry.images, ...(outcome?.changes ?? [])]) this.#touched.add(id);
    this.#compare(entry, outcome?.changes ?? []);
  }

  #decideAgain(entry: EarlierEntry, act: Act, happenedAtMs: number | undefined): Outcome | null {
    const context = {
      entryId: entry.id,
      writerId: this.#writer.entryId,
      happenedAtMs: happenedAtMs ?? entry.happenedAtMs,
      contractions: this.#shrunkAt(entry.id),
    };
    const book = openChangeSet(this.#readerAt(entry), context);
    const refused = this.#playing.decide(book, act);
    if (refused === null) return book.outcome();
    // What is refused inside is one of the plain reasons: a telling anew is never told anew itself.
    this.#refusals.push({ entryId: entry.id, error: refused as PlainLedgerError });
    return null;
  }

  #shrunkAt(entryId: EntryId): 'reckoned' | ReadonlyMap<string, number> {
    if (this.#writer.contractions === 'reckoned') return 'reckoned';
    const here = this.#playing.shrunk.filter((each) => each.entryId === entryId);
    return new Map(here.map(({ vesselId, contractionUl }) => [vesselId, contractionUl]));
  }

  /** The cellar as it was when the entry was written, but for what differs now. */
  #readerAt(entry: EarlierEntry): CellarReader {
    const { ...base } = this.#reader;
    const isCorrected = this.#corrections.has(entry.id);
    const get = <K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null => {
      const differs = this.#dirty.get(keyOf(kind, id));
      if (differs !== undefined) return differs.now as RecordsByKind[K] | null;
      return this.#historyBefore(kind, id, entry) as RecordsByKind[K] | null;
    };
    const isItsOwn = (kind: RecordKind, field: string, value: unknown): boolean =>
      entry.images.some((image) => {
        const record = image.kind === kind ? this.#reader.get(kind, image.id) : null;
        return record !== null && (record as unknown as Record<string, unknown>)[field] === value;
      });
    return {
      ...base,
      get,
      // What stood elsewhere was found free when the entry was written; only what is told anew is asked again.
      vesselAt: (shelfId, position) => (isCorrected ? this.#reader.vesselAt(shelfId, position) : null),
      batchCodeTaken: (code) =>
        isCorrected && !isItsOwn('batch', 'code', code) && this.#reader.batchCodeTaken(code),
      vesselNumberTaken: (number) =>
        isCorrected && !isItsOwn('vessel', 'number', number) && this.#reader.vesselNumberTaken(number),
      shelfLetterTaken: (letter) =>
        isCorrected && !isItsOwn('shelf', 'letter', letter) && this.#reader.shelfLetterTaken(letter),
      lastPullNumber: (culture) => {
        const own = this.#reader.get('pull', entry.id);
        return own?.cultureId === culture ? own.number - 1 : this.#lastPullNumber(culture);
      },
      // Whether all vessels stand on the shelf is asked at the end, of the shelf as it then is.
      highestPosition: () => 0,
    };
  }

  /** The last number given, those that this telling gives among them. */
  #lastPullNumber(culture: CultureId): number {
    const told = [...this.#dirty.values()].map(({ kind, now }) => {
      const pull = kind === 'pull' ? (now as RecordsByKind['pull'] | null) : null;
      return pull?.cultureId === culture ? pull.number : 0;
    });
    return Math.max(this.#reader.lastPullNumber(culture), ...told);
  }

  /** A record as it was just before an entry. */
  #historyBefore(kind: RecordKind, id: string, entry: EarlierEntry): AnyRecord | null {
    const own = entry.images.find((image) => image.kind === kind && image.id === id);
    return own === undefined ? this.#historyAfter(kind, id, entry) : own.before;
  }

  /** A record as it was just after an entry: as the next one that wrote it found it, else as it is. */
  #historyAfter(kind: RecordKind, id: string, entry: EarlierEntry): AnyRecord | null {
    const later = this.#reader.foundLater(kind, id, entry.sequence);
    return later === undefined ? this.#reader.get(kind, id) : later;
  }

  /** Sets each record that the entry wrote, or now writes, against what it was after it. */
  #compare(entry: EarlierEntry, changes: readonly Change[]): void {
    const written = new Map(changes.map((change) => [keyOf(change.kind, change.id), change]));
    const met = new Map<string, { readonly kind: RecordKind; readonly id: string }>();
    for (const { kind, id } of [...entry.images, ...changes]) {
      if (!MARKS.has(kind)) met.set(keyOf(kind, id), { kind, id });
    }
    for (const [key, { kind, id }] of met) {
      const change = written.get(key);
      const unwritten = this.#dirty.has(key)
        ? (this.#dirty.get(key)?.now ?? null)
        : this.#historyBefore(kind, id, entry);
      const now = change === undefined ? unwritten : change.after;
      if (sameRecord(now, this.#historyAfter(kind, id, entry))) this.#dirty.delete(key);
      else this.#dirty.set(key, { kind, id, now });
    }
  }
}

function keyOf(kind: RecordKind, id: string): string {
  return `${kind}:${id}`;
}

/** Marks of correction: the walk follows what they stand for and leaves them be. */
const MARKS: ReadonlySet<RecordKind> = new Set(['strike', 'restatement']);

/** Under which vessel, batch or culture the entries are found that may read or write a record; null when none can. */
function subjectOf(kind: RecordKind, id: string, record: AnyRecord | null): Subject | null {
  if (kind === 'vessel' || kind === 'fill') return { kind: 'vessel', id };
  if (kind === 'batch' || kind === 'culture') return { kind, id };
  if (kind !== 'lot' && kind !== 'photo') return null;
  const { batchId, vesselId } = (record ?? {}) as { batchId?: unknown; vesselId?: unknown };
  if (typeof batchId === 'string') return { kind: 'batch', id: batchId };
  return typeof vesselId === 'string' ? { kind: 'vessel', id: vesselId } : null;
}

/** Who wrote what stays as it is and points at what would go: a shelf under a vessel, a mother of a daughter. */
function leftBehind(reader: CellarReader, { changed }: Telling): EntryId[] {
  const gone = [...changed.values()].filter(({ now }) => now === null);
  const resting = gone.flatMap(({ kind, id }) => reader.restingOn(kind, id));
  const left = resting.filter(({ kind, id }) => !changed.has(keyOf(kind, id)));
  return [...new Set(left.map(({ writtenBy }) => writtenBy))];
}

function writeDown(book: ChangeSet, { changed, corrections, retold }: Telling): void {
  const { entryId } = book.context;
  for (const { kind, id, now } of changed.values()) {
    if (now === null) book.remove(kind, id);
    else book.restore(kind, { ...now, writtenBy: entryId });
  }
  for (const { entry, outcome } of retold) {
    for (const { account, deltaUl, massesUg = {} } of entry.postings) {
      book.post(account, 'store', deltaUl, massesUg);
    }
    for (const { account, deltaUl, massesUg = {} } of outcome?.postings ?? []) {
      book.post(account, 'store', -deltaUl, negateMasses(massesUg));
    }
  }
  for (const { entryId: id, act, happenedAtMs } of corrections.values()) {
    if (act === null) {
      book.remove('restatement', id);
      book.put('strike', { id });
    } else {
      book.put('restatement', { id, act, happenedAtMs });
    }
  }
}
