import type { EntryRow, RestatePlan } from '#core/contract/ledger.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { safe } from '@orpc/client';
import { acts } from '../acts/acts-state.svelte.ts';
import { browserTime } from '../acts/browser-time.ts';
import { vesselOf, type Told } from '../acts/correcting.ts';
import { vesselShort } from '../acts/vessel-choice.ts';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { sayEntry } from '../words/act-words.ts';
import { sayLedgerError } from '../words/error-words.ts';
import { asItReads } from './as-it-reads.ts';
import { actOfDraft } from './draft-of.ts';
import { keptCorrection, type KeptCorrection } from './kept-correction.ts';
import { refillOwnForm, refillSmallForm } from './refill-form.ts';

/** A line of the book with what it should have said; null takes it back. A time of null leaves it as it was. */
export interface ToldLine {
  readonly line: EntryRow;
  readonly act: ActDraft | null;
  readonly happenedAtMs: number | null;
  readonly names: Readonly<Record<string, string>>;
}

/** A later line that could not have been, and why. */
export interface Impossible {
  readonly line: EntryRow;
  readonly sentence: string;
}

/** What the book says to a correction as it is asked. */
export type Answer =
  | { readonly type: 'asking' }
  /** `where` says of each vessel of the plan where it is, since two may hold the same batch. */
  | {
      readonly type: 'plan';
      readonly plan: RestatePlan;
      readonly where: Readonly<Record<string, string>>;
    }
  | { readonly type: 'impossible'; readonly lines: readonly Impossible[] }
  | { readonly type: 'refused'; readonly sentence: string };

/**
 * A correction being put together: the line it begins with, the lines told anew or taken back along with it, and what
 * the book says would follow. Nothing is written before it is carried out.
 */
class Corrections {
  /** The line that is to be struck; null when nothing is asked. */
  striking = $state.raw<EntryRow | null>(null);
  /** The lines of the correction in the order they were told, the first being the one it begins with. Null: there is none. */
  told = $state.raw<readonly ToldLine[] | null>(null);
  reason = $state('');
  answer = $state.raw<Answer>({ type: 'asking' });
  busy = $state(false);
  /** True when what is shown was put together in an earlier sitting. */
  restored = $state(false);
  #asked = 0;
  /** Grows with every form asked for and with every close, so that a form that was given up meanwhile never opens. */
  #openings = 0;

  /** Begins the correction of a line: what was left of it before, or the form of its act. */
  async correct(line: EntryRow): Promise<void> {
    const opening = (this.#openings += 1);
    if (await this.#restore(line, opening)) return;
    if (opening !== this.#openings) return;
    this.#begin([]);
    await this.edit(line);
  }

  /** Begins with a line taken back, though later lines rest on it. */
  takeBackWithWhatFollows(line: EntryRow): void {
    this.striking = null;
    this.#begin([{ line, act: null, happenedAtMs: null, names: {} }]);
    void this.#changed();
  }

  /** Opens the form of a line; what it hands over becomes part of the correction. */
  async edit(line: EntryRow): Promise<void> {
    const opening = (this.#openings += 1);
    const before = this.told?.find((each) => each.line.entryId === line.entryId) ?? null;
    const shown = before === null ? asItReads(line) : asTold(before);
    const given = { house: cellar.rules, currency: cellar.rules.currency, localTime: browserTime };
    const own = refillOwnForm(shown, given);
    const form = own !== null && (await stillThere(shown)) ? own : refillSmallForm(shown, given);
    if (opening !== this.#openings) return;
    acts.open(form.request, {
      entryId: line.entryId,
      says: sayEntry(asItReads(line), cellar.rules),
      act: shown.act,
      happenedAtMs: shown.happenedAtMs,
      fields: form.fields,
      names: shown.names,
      mayStay: before !== null && before.act !== null,
      taken: (told) => {
        this.#put(line, before, told);
      },
    });
  }

  /** Takes a line back along with the others. */
  takeBack(line: EntryRow): void {
    this.#set({ line, act: null, happenedAtMs: null, names: {} });
  }

  /** Leaves a line as it was; the one the correction begins with stays. */
  leave(entryId: EntryId): void {
    this.told = this.told?.filter(({ line }, i) => i === 0 || line.entryId !== entryId) ?? null;
    void this.#changed();
  }

  /** Shuts the sheet; what was put together is kept as a draft. */
  close(): void {
    this.told = null;
    this.#asked += 1;
    this.#openings += 1;
  }

  /** Forgets what was put together and begins again with the form of its first line. */
  async startAfresh(): Promise<void> {
    const root = this.told?.[0]?.line;
    if (root === undefined) return;
    keptCorrection(root.entryId).forget();
    this.#begin([]);
    await this.edit(root);
  }

  keepDraft(): void {
    const root = this.told?.[0]?.line.entryId;
    if (this.told === null || root === undefined) return;
    const lines: KeptCorrection = this.told.map(({ line, act, happenedAtMs, names }) => ({
      ...{ entryId: line.entryId, act, happenedAtMs, names: { ...names } },
    }));
    keptCorrection(root).keep(lines, this.reason);
  }

  /** Writes the correction. True when it is written. */
  async carryOut(): Promise<boolean> {
    const root = this.told?.[0]?.line.entryId;
    if (this.told === null || root === undefined || this.busy || this.answer.type !== 'plan') return false;
    this.busy = true;
    const result = await cellar.restate({ corrections: this.#corrections(), reason: this.reason.trim() });
    this.busy = false;
    if (result.ok) {
      keptCorrection(root).forget();
      this.told = null;
      return true;
    }
    if (result.refusal === undefined)
      this.answer = { type: 'refused', sentence: `${result.fault.message} Code: ${result.fault.code}.` };
    else this.answer = await answerTo(result.refusal);
    return false;
  }

  #begin(told: readonly ToldLine[]): void {
    this.told = told.length === 0 ? null : told;
    this.reason = '';
    this.restored = false;
    this.answer = { type: 'asking' };
  }

  /** True when a draft was left; shown unless something else was asked for meanwhile. */
  async #restore(line: EntryRow, opening: number): Promise<boolean> {
    const kept = keptCorrection(line.entryId).read();
    if (kept === null) return false;
    const rows = await Promise.all(kept.lines.map(({ entryId }) => lineOf(entryId)));
    const told = kept.lines.flatMap(({ entryId: _same, ...each }, i) => {
      const row = rows[i];
      return row === null || row === undefined || row.struck ? [] : [{ line: row, ...each }];
    });
    if (told[0]?.line.entryId !== line.entryId) return false;
    if (opening !== this.#openings) return true;
    this.#begin(told);
    this.reason = kept.reason;
    this.restored = true;
    void this.#changed();
    return true;
  }

  #put(line: EntryRow, before: ToldLine | null, { act, happenedAtMs, names }: Told): void {
    this.#set({
      ...{ line, act, happenedAtMs: happenedAtMs ?? before?.happenedAtMs ?? null },
      names: { ...before?.names, ...names },
    });
  }

  #set(told: ToldLine): void {
    const all = this.told ?? [];
    const isNew = all.every(({ line }) => line.entryId !== told.line.entryId);
    this.told = isNew
      ? [...all, told]
      : all.map((each) => (each.line.entryId === told.line.entryId ? told : each));
    void this.#changed();
  }

  #corrections() {
    return (this.told ?? []).map(({ line, act, happenedAtMs }) => ({
      ...{ entryId: line.entryId, act, happenedAtMs },
    }));
  }

  async #changed(): Promise<void> {
    this.keepDraft();
    const asked = (this.#asked += 1);
    this.answer = { type: 'asking' };
    const corrections = this.#corrections();
    const { error, data, isDefined } = await safe(client.ledger.planRestate({ corrections, reason: '' }));
    const answer: Answer =
      error === null
        ? { type: 'plan', plan: data, where: await whereOf(data) }
        : isDefined
          ? await answerTo(error.data)
          : { type: 'refused', sentence: 'The book could not be asked. Nothing is written. Try again.' };
    if (asked === this.#asked) this.answer = answer;
  }
}

export const corrections = new Corrections();

/** The line as the correction has it so far. */
export function asTold(told: ToldLine): EntryRow {
  const { line, act, happenedAtMs, names } = told;
  const shown = asItReads(line);
  if (act === null) return shown;
  return {
    ...shown,
    act: actOfDraft(shown.act, act),
    happenedAtMs: happenedAtMs ?? shown.happenedAtMs,
    names: { ...names, ...shown.names },
  };
}

/** A line of the book; null when it cannot be read. */
export async function lineOf(entryId: string): Promise<EntryRow | null> {
  const { error, data } = await safe(client.ledger.entry({ entryId }));
  if (error !== null) faults.report(error);
  return data ?? null;
}

/** A refusal with the later lines it names read from the book. */
async function answerTo(refusal: LedgerError): Promise<Answer> {
  const say = (error: LedgerError): string =>
    sayLedgerError(error, { house: cellar.rules, localTime: browserTime }).sentence;
  const named =
    refusal.type === 'RestateImpossible'
      ? refusal.refusals.map(({ entryId, error }) => ({ entryId, sentence: say(error) }))
      : refusal.type === 'LaterEntriesRest'
        ? refusal.entryIds.map((entryId) => ({ entryId, sentence: 'It rests on a line that would go.' }))
        : [];
  const lines = await Promise.all(
    named.map(async ({ entryId, sentence }) => {
      const line = await lineOf(entryId);
      return line === null ? [] : [{ line, sentence }];
    }),
  );
  return named.length === 0
    ? { type: 'refused', sentence: say(refusal) }
    : { type: 'impossible', lines: lines.flat() };
}

async function whereOf({ vessels }: RestatePlan): Promise<Record<string, string>> {
  const found = await Promise.all(vessels.map(({ vesselId }) => safe(client.shelves.vessel({ vesselId }))));
  return Object.fromEntries(
    found.flatMap(({ data }) => (data ? [[data.row.vesselId, vesselShort(data.row)] as const] : [])),
  );
}

/** Whether the one vessel a form is about is still in the cellar; a form about no vessel can always be filled in. */
async function stillThere({ act }: EntryRow): Promise<boolean> {
  if (act.kind === 'editBatch')
    return (await safe(client.book.leaf({ batchId: act.batchId }))).error === null;
  const vesselId = vesselOf(act);
  if (vesselId === null || act.kind === 'addVessel') return true;
  return (await safe(client.shelves.vessel({ vesselId }))).error === null;
}
