import { ActDraft, type ActKind } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Stage } from '#core/ledger/stage.ts';
import { safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { cellar, type PostOptions, type PostResult } from '../cellar/cellar-state.svelte.ts';
import { draftFor, type Draft } from '../shell/drafts.ts';
import { sayLedgerError, type Fix, type Said } from '../words/error-words.ts';
import { acts } from './acts-state.svelte.ts';
import { browserTime } from './browser-time.ts';
import { toldAnew, type Correcting } from './correcting.ts';
import { FormReader, type Problem } from './form-reader.ts';
import { vesselShort } from './vessel-choice.ts';

/** One act of several, made when those before it are written: what they created is known then. */
export type Step = (earlier: readonly Posted[]) => ActDraft;
/** Puts the act of a form together, or several acts to be written one after another. */
export type Build = (read: FormReader) => ActDraft | readonly Step[];

export interface ActFormOptions {
  /** Names the draft of this form; see `draftKey`. */
  readonly draftKey: string;
  /** Every field with what it holds at first; '' where nothing is known. */
  readonly initial: Readonly<Record<string, string>>;
  readonly build: Build;
  /** Better words for a refusal than the general ones, where the form knows more. */
  readonly refit?: (refusal: LedgerError) => Said | null;
  /** The field of the form that a refusal belongs to, where the book calls it otherwise or the form asks it otherwise. */
  readonly fieldOf?: (refusal: LedgerError) => string;
  /** Describing something anew: carrying it out with nothing changed writes nothing. */
  readonly isDescription?: boolean;
  /** Some of several acts are written and the next was refused: the form may ask for less. */
  readonly afterPart?: (form: ActForm, written: readonly Posted[]) => void;
  /**
   * Where no act needs what another created: all of them are asked of the book before the first is written, and none is when
   * one would be refused. Gives the field that a refusal of the act in this place belongs to.
   */
  readonly fieldOfStep?: (step: number, refusal: LedgerError) => string;
  /** Writes an act that takes more than itself to write, such as a picture. */
  readonly send?: (act: ActDraft, options: PostOptions) => Promise<PostResult>;
  /** What the form rests on and is still being read: nothing is written before it is there. */
  readonly settled?: () => Promise<unknown>;
}

interface Attempt {
  readonly problems: readonly Problem[];
  readonly steps: readonly Step[];
  /** The one act, when there is just one and it needs no other. */
  readonly single: ActDraft | null;
  readonly happenedAtMs: number | null;
  readonly typed: Record<string, string>;
}

/**
 * A form that writes an act. Every field is text, so that what is typed can be kept as a draft, shown again after a
 * refusal, and passed on to the book as typed.
 */
export class ActForm {
  /** The line of the book this form tells anew; null when it writes an act of its own. */
  readonly correcting: Correcting | null = acts.correcting;
  readonly id = `act-${crypto.randomUUID().slice(0, 8)}`;
  fields = $state<Record<string, string>>({});
  kept = $state<Record<string, string>>({});
  /** Vessels chosen, by field, as the shelf knows them. */
  rows = $state.raw<Readonly<Record<string, ShelfRow>>>({});
  busy = $state(false);
  /** How many of several acts are written, while they are being written. */
  written = $state(0);
  /** True once the keeper has tried to carry it out: from then on what is amiss is shown at once. */
  tried = $state(false);
  /** True when what is shown was typed in an earlier sitting. */
  restored = $state(false);
  fault = $state<string | null>(null);
  note = $state<string | null>(null);
  /** The field that was typed in last, for the numeric pad. */
  lastField = $state<string | null>(null);
  /** True while a numeric pad is shown, which then stands in for the keyboard of a touch screen. */
  padShown = $state(false);
  /** What each field is called; a field that comes into sight later adds its name then. */
  readonly labels = $state<Record<string, string>>({});

  readonly #options: ActFormOptions;
  readonly #initial: Record<string, string>;
  readonly #draft: Draft<Record<string, string>>;
  #refused = $state.raw<{ readonly problems: readonly Problem[]; readonly fields: string } | null>(null);
  #checked = $state.raw<ReadonlySet<string>>(new Set());

  attempt = $derived.by((): Attempt => {
    const read = this.#reader();
    if (this.correcting !== null) return this.#attemptToCorrect(read, this.correcting);
    const built = this.#options.build(read);
    const steps = typeof built === 'object' && 'kind' in built ? [() => built] : built;
    const single = typeof built === 'object' && 'kind' in built ? built : null;
    const problems = [...read.problems];
    if (problems.length === 0 && single !== null) problems.push(...outsideTheBook(single));
    return { problems, steps, single, happenedAtMs: read.happenedAtMs, typed: read.typed };
  });

  /**
   * What is to be mended, as shown: before the first try only in fields that were checked by themselves. A refusal stands until
   * something is changed.
   */
  problems = $derived.by((): readonly Problem[] => {
    if (!this.tried) return this.attempt.problems.filter(({ field }) => this.#checked.has(field));
    const refused = this.#refused;
    const stands = refused !== null && refused.fields === JSON.stringify(this.fields);
    return stands ? [...this.attempt.problems, ...refused.problems] : this.attempt.problems;
  });

  constructor(options: ActFormOptions) {
    this.#options = options;
    this.#initial = { ...options.initial, ...this.correcting?.fields };
    this.#draft = draftFor(
      this.correcting === null ? options.draftKey : `correcting:${this.correcting.entryId}`,
    );
    this.fields = { ...this.#initial };
    this.kept = { ...this.correcting?.fields };
    const draft = this.#draft.read();
    if (draft === null) return;
    for (const [field, text] of Object.entries(draft)) {
      if (text !== undefined && text !== this.fields[field]) {
        this.fields[field] = text;
        this.restored = true;
      }
    }
  }

  problemOf(field: string): Problem | null {
    return this.problems.find((problem) => problem.field === field) ?? null;
  }

  fieldId(field: string): string {
    return `${this.id}-${field.replaceAll(/[^A-Za-z0-9]/gu, '-')}`;
  }

  /** Puts a value the form knows into a field that the keeper has not typed in. */
  suggest(field: string, text: string): void {
    if (this.correcting !== null) return;
    const now = this.fields[field] ?? '';
    if (now !== '' && now !== this.#initial[field]) return;
    this.fields[field] = text;
    this.#initial[field] = text;
  }

  /** Looks at some fields before the rest is filled in, and from then on says what is amiss in them. True when nothing is. */
  check(fields: readonly string[]): boolean {
    this.#checked = new Set([...this.#checked, ...fields]);
    return !this.attempt.problems.some(({ field }) => fields.includes(field));
  }

  /** True when what is poured joins what stands in a vessel. Of a line of an earlier day that is not known here. */
  holdsNow(row: ShelfRow | null): boolean {
    return this.correcting === null && row !== null && row.volumeUl > 0;
  }

  /** The stage of what stands in a vessel, which a chooser then leaves out; null for a line of an earlier day. */
  stageNow(row: ShelfRow | null): Stage | null {
    return this.correcting === null ? (row?.stage ?? null) : null;
  }

  choose(field: string, row: ShelfRow | null): void {
    const { [field]: _before, ...others } = this.rows;
    this.rows = row === null ? others : { ...others, [field]: row };
    this.fields[field] = row?.vesselId ?? '';
  }

  apply(field: string, fix: Fix): void {
    if (fix.how === 'keep') this.kept[field] = fix.text;
    else this.fields[field] = fix.text;
  }

  /** Keeps what is typed as a draft; called with every change, so that a crash loses nothing. */
  keepDraft(): void {
    const changed = Object.entries($state.snapshot(this.fields)).filter(
      ([field, text]) => text !== (this.#initial[field] ?? ''),
    );
    if (changed.length > 0) this.#draft.keep(Object.fromEntries(changed));
    else this.#draft.forget();
  }

  /** Forgets the draft and begins with what was known at first. */
  startAfresh(): void {
    this.fields = { ...this.#initial };
    this.kept = { ...this.correcting?.fields };
    this.rows = {};
    this.tried = false;
    this.#checked = new Set();
    this.restored = false;
    this.fault = null;
    this.#draft.forget();
  }

  /** Writes the act. A second press while the first is being written does nothing. True when all is written. */
  async submit(): Promise<boolean> {
    if (this.busy) return false;
    if (this.#options.settled !== undefined) {
      this.busy = true;
      await this.#options.settled();
      this.busy = false;
    }
    this.tried = true;
    this.#refused = null;
    this.fault = null;
    this.note = null;
    const { problems, steps, typed, happenedAtMs } = this.attempt;
    if (problems.length > 0) return false;
    if (this.correcting !== null) return this.#handOver(this.correcting);
    if (this.#options.isDescription === true && !this.#isChanged()) return true;
    this.busy = true;
    this.written = 0;
    const posted: Posted[] = [];
    try {
      if (!(await this.#wouldBeTaken(steps, happenedAtMs))) return false;
      for (const step of steps) {
        const send =
          this.#options.send ?? ((act: ActDraft, options: PostOptions) => cellar.post(act, options));
        const result = await send(step(posted), { typed, happenedAtMs });
        if (!result.ok) {
          if (result.refusal !== undefined) this.#refuse([this.#problemOf(result.refusal)]);
          else this.fault = `${result.fault.message} Code: ${result.fault.code}.`;
          if (posted.length > 0) this.#wrotePart(posted, steps.length);
          return false;
        }
        posted.push(result.posted);
        this.written = posted.length;
      }
    } finally {
      this.busy = false;
    }
    this.#draft.forget();
    return true;
  }

  /** The act of the form as the line should have said it. Of several acts that the form would write, the line's own. */
  #attemptToCorrect(read: FormReader, correcting: Correcting): Attempt {
    const built = this.#options.build(read);
    const when = read.raw('happenedAtMs');
    const isTimeRead = read.typed['happenedAtMs'] !== undefined || when === '' || when === 'now';
    if (!isTimeRead && !read.problems.some(({ field }) => field === 'happenedAtMs')) read.when();
    const own = 'kind' in built ? built : ownStep(built, correcting.act.kind);
    const single = own === null ? null : toldAnew(correcting, own, this.fields);
    const problems = [...read.problems];
    if (problems.length === 0 && single !== null) problems.push(...outsideTheBook(single));
    const isTimeChanged = when !== (this.#initial['happenedAtMs'] ?? '').trim();
    const happenedAtMs = isTimeChanged ? Math.floor(read.happenedAtMs ?? read.form.nowMs) : null;
    return { problems, steps: [], single, happenedAtMs, typed: read.typed };
  }

  /** Hands over what the line should have said; nothing is written by that. */
  #handOver({ mayStay, taken }: Correcting): boolean {
    const { single, happenedAtMs } = this.attempt;
    if (single === null || !(mayStay || this.#isChanged())) {
      this.fault = 'Nothing is changed yet. Change what was wrong, or close the form.';
      return false;
    }
    this.#draft.forget();
    const names = Object.values(this.rows).map((row) => [row.vesselId, vesselShort(row)] as const);
    taken({ act: single, happenedAtMs, names: Object.fromEntries(names) });
    return true;
  }

  /** The words for a refusal, whether it came from a plan or from the book. */
  sayRefusal(refusal: LedgerError): Said {
    const context = { house: cellar.rules, localTime: browserTime };
    return this.#options.refit?.(refusal) ?? sayLedgerError(refusal, context);
  }

  /** Asks the book about every act before any is written, where the form wants all or nothing. */
  async #wouldBeTaken(steps: readonly Step[], happenedAtMs: number | null): Promise<boolean> {
    const { fieldOfStep } = this.#options;
    if (fieldOfStep === undefined) return true;
    const refused: Problem[] = [];
    for (const [i, step] of steps.entries()) {
      const { error, isDefined } = await safe(client.ledger.plan({ act: step([]), happenedAtMs }));
      if (error === null) continue;
      if (!isDefined) {
        this.fault = 'The book could not be asked, so nothing is written. Try again.';
        return false;
      }
      refused.push({ ...this.#problemOf(error.data), field: fieldOfStep(i, error.data) });
    }
    if (refused.length > 0) this.#refuse(refused);
    return refused.length === 0;
  }

  #problemOf(refusal: LedgerError): Problem {
    return { field: this.#options.fieldOf?.(refusal) ?? refusal.field, ...this.sayRefusal(refusal) };
  }

  #refuse(problems: readonly Problem[]): void {
    this.#refused = { problems, fields: JSON.stringify(this.fields) };
  }

  #wrotePart(posted: readonly Posted[], all: number): void {
    this.note = `${posted.length} of ${all} are written and stand in the book. The rest is not.`;
    this.#options.afterPart?.(this, posted);
    if (this.#refused !== null) this.#refused = { ...this.#refused, fields: JSON.stringify(this.fields) };
  }

  #isChanged(): boolean {
    return Object.entries(this.fields).some(([field, text]) => text !== (this.#initial[field] ?? ''));
  }

  #reader(): FormReader {
    return new FormReader({
      fields: this.fields,
      kept: this.kept,
      house: cellar.rules,
      nowMs: cellar.now(),
      localTime: browserTime,
      ...(this.correcting === null ? {} : { correctsMs: this.correcting.happenedAtMs }),
    });
  }
}

/** The act of this kind among several; those before it are not written here, so one that needs them is not reached. */
function ownStep(steps: readonly Step[], kind: ActKind): ActDraft | null {
  for (const step of steps) {
    const act = step([]);
    if (act.kind === kind) return act;
  }
  return null;
}

/** What the book's own schema would refuse of an act that the form takes for sound. */
function outsideTheBook(act: ActDraft): Problem[] {
  const parsed = ActDraft.safeParse(act);
  if (parsed.success) return [];
  return parsed.error.issues.map(({ path, message }) => ({
    // A field of one of several rows is known by its whole path, such as `parts.1.volumeUl`.
    field: path.some((step) => typeof step === 'number') ? path.join('.') : String(path.at(-1) ?? ''),
    sentence: `The book does not take this value (${message}). Change it.`,
    fixes: [],
  }));
}
