import type { AboutCellar } from '#core/contract/cellar.ts';
import { HOUSE_RULES_AT_FIRST, type HouseRules } from '#core/contract/house-rules.ts';
import type { Posted, UndoState } from '#core/contract/ledger.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import type { ActDraft, ActOf } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { theme } from '../ui/theme.svelte.ts';
import { sayPictureRefusal } from '../words/photo-words.ts';
import { localDayAround, type LocalDay } from './day.ts';
import { sayNotWritten } from '../words/not-written.ts';
import { faultOf, faults } from './faults.svelte.ts';
import { RequestIds } from './request-ids.ts';

export interface PostFault {
  readonly code: string;
  readonly message: string;
}

export type PostResult =
  | { readonly ok: true; readonly posted: Posted }
  | { readonly ok: false; readonly refusal: LedgerError; readonly fault?: never }
  | { readonly ok: false; readonly fault: PostFault; readonly refusal?: never };

export interface PostOptions {
  /** Text as typed, by field name. */
  readonly typed?: Record<string, string>;
  /** When it happened; null or left away means now. */
  readonly happenedAtMs?: number | null;
}

export interface Restating {
  /** Null takes a line back; a time of null leaves it as it was. */
  readonly corrections: readonly {
    readonly entryId: EntryId;
    readonly act: ActDraft | null;
    readonly happenedAtMs: number | null;
  }[];
  readonly reason: string;
}

/** The open cellar: what it is, its house rules, what can be undone, and the one door through which acts are written. */
class CellarState {
  about = $state.raw<AboutCellar | null>(null);
  undoState = $state.raw<UndoState>({ undo: null, redo: null });
  /** Grows with every write and with every change of the open file; a place reads it to load again. */
  revision = $state(0);
  /** Grows when another file is opened, so that a place forgets what it chose. */
  fileRevision = $state(0);
  lastPosted = $state.raw<Posted | null>(null);
  /** When something was last kept, in the host's time; null before anything was. */
  savedAtMs = $state<number | null>(null);
  busy = $state(0);

  #day = $state.raw<LocalDay>(localDayAround(Date.now()));
  #clockAheadMs = 0;
  /** The lines of the book whose effects this window shows. */
  #linesKnown = 0;
  /** Counts the changes of the house rules, and those the host has not answered yet. */
  #settleTurn = 0;
  #settling = 0;
  #requestIds = new RequestIds(() => crypto.randomUUID());

  rules = $derived<HouseRules>(this.about?.houseRules ?? HOUSE_RULES_AT_FIRST);

  /** Reads what the open cellar is. Throws when the host does not answer. */
  async load(): Promise<void> {
    const about = await client.cellar.about();
    this.take(about);
    this.#linesKnown = about.entryCount;
    this.undoState = await client.ledger.undoState();
    this.revision += 1;
  }

  /**
   * Looks at the open cellar again without disturbing what is shown, unless something was written elsewhere: then the
   * places load again, and what can be taken back is what the cellar says now.
   */
  async refresh(): Promise<void> {
    if (this.about === null) return;
    const { file } = this.about;
    const turn = this.#settling > 0 ? null : this.#settleTurn;
    const about = await client.cellar.about();
    if (about.file !== file) {
      await this.takeFile(about);
      return;
    }
    // Rules changed while this was asked are newer than the answer.
    this.take(turn === this.#settleTurn ? about : { ...about, houseRules: this.rules });
    if (about.entryCount === this.#linesKnown || this.busy > 0) return;
    this.#linesKnown = about.entryCount;
    this.undoState = await client.ledger.undoState();
    this.revision += 1;
  }

  /** Takes over what the host says of the open cellar. */
  take(about: AboutCellar): void {
    const before = this.about;
    this.about = about;
    this.#clockAheadMs = about.nowMs - Date.now();
    this.savedAtMs = about.lastWrittenAtMs;
    if (before !== null && before.file !== about.file) {
      this.fileRevision += 1;
      this.lastPosted = null;
    }
    theme.choose(about.houseRules.theme);
    document.documentElement.toggleAttribute('data-pantry', about.houseRules.pantry);
    this.checkDay();
  }

  /** Takes over another file: its undo stack belongs to it. */
  async takeFile(about: AboutCellar): Promise<void> {
    this.lastPosted = null;
    this.take(about);
    this.#linesKnown = about.entryCount;
    this.undoState = await client.ledger.undoState();
    this.fileRevision += 1;
    this.revision += 1;
  }

  /** Writes one act. Sent again after a fault, the same act is written once. */
  async post(act: ActDraft, options: PostOptions = {}): Promise<PostResult> {
    const input = { act, happenedAtMs: options.happenedAtMs ?? null, typed: options.typed ?? {} };
    const requestId = this.#requestIds.for(input);
    const result = await this.#write(() => safe(client.ledger.post({ requestId, ...input })));
    if (result.ok || result.refusal !== undefined) this.#requestIds.settled(input);
    return result;
  }

  /** Keeps a picture and writes the act that ties it to what it shows. Sent again after a fault, both are kept once. */
  async addPhoto(
    act: ActOf<'addPhoto'>,
    { picture, thumbnail }: { readonly picture: File; readonly thumbnail: File },
    options: PostOptions = {},
  ): Promise<PostResult> {
    const input = { act, happenedAtMs: options.happenedAtMs ?? null, typed: options.typed ?? {} };
    const requestId = this.#requestIds.for(input);
    const result = await this.#write(() => sendPhoto({ requestId, ...input, picture, thumbnail }));
    if (result.ok || result.refusal !== undefined) this.#requestIds.settled(input);
    return result;
  }

  undo(): Promise<PostResult> {
    return this.#write(sendUndo);
  }

  redo(): Promise<PostResult> {
    return this.#write(() => safe(client.ledger.redo({ requestId: crypto.randomUUID() })));
  }

  /** Strikes one entry through, wherever in the book it stands. */
  strike(entryId: string): Promise<PostResult> {
    return this.#write(() => safe(client.ledger.strike({ requestId: crypto.randomUUID(), entryId })));
  }

  /** Tells earlier lines anew, or takes them back. Sent again after a fault, the same correction is written once. */
  async restate(input: Restating): Promise<PostResult> {
    const requestId = this.#requestIds.for(input);
    const asked = { requestId, reason: input.reason, corrections: [...input.corrections] };
    const result = await this.#write(() => safe(client.ledger.restate(asked)));
    if (result.ok || result.refusal !== undefined) this.#requestIds.settled(input);
    return result;
  }

  /** Settles the house rules at once; the old ones stand again when the host refuses. The last change asked for wins. */
  async settle(rules: HouseRules): Promise<boolean> {
    if (this.about === null) return false;
    const before = this.about.houseRules;
    const turn = (this.#settleTurn += 1);
    this.#settling += 1;
    const stand = (houseRules: HouseRules): void => {
      if (turn === this.#settleTurn && this.about !== null)
        this.take({ ...this.about, houseRules, nowMs: this.now() });
    };
    stand(rules);
    try {
      stand(await client.houseRules.settle(rules));
      this.savedAtMs = this.now();
      return true;
    } catch (error) {
      stand(before);
      faults.report(error);
      return false;
    } finally {
      this.#settling -= 1;
    }
  }

  /** The host's clock, epoch ms. */
  now(): number {
    return Date.now() + this.#clockAheadMs;
  }

  /** The keeper's day. Reading it in a derived value makes that value follow midnight. */
  today(): LocalDay {
    return this.#day;
  }

  /** Looks whether a new day has begun; called at midnight, on focus and after sleep. */
  checkDay(): void {
    const day = localDayAround(this.now());
    if (day.startMs !== this.#day.startMs || day.endMs !== this.#day.endMs) this.#day = day;
  }

  async #write(send: () => Promise<WriteAnswer>): Promise<PostResult> {
    this.busy += 1;
    try {
      const { error, data, isDefined } = await send();
      if (error === null && data !== undefined) {
        this.#wrote(data);
        return { ok: true, posted: data };
      }
      if (isDefined && error !== null && error.code === 'REFUSED') return { ok: false, refusal: error.data };
      if (isDefined && error !== null && error.code === 'NOT_WRITTEN') {
        return { ok: false, fault: { code: error.data.type, message: sayNotWritten(error.data) } };
      }
      if (isDefined && error !== null && error.code === 'PICTURE_REFUSED') {
        const message = `${sayPictureRefusal(error.data)} Nothing was written. Choose the picture again.`;
        return { ok: false, fault: { code: error.data.type, message } };
      }
      faults.report(error);
      const fault = faultOf(error);
      return {
        ok: false,
        fault: { code: fault.detail ?? 'NoAnswer', message: `${fault.title} ${fault.message}` },
      };
    } finally {
      this.busy -= 1;
    }
  }

  /** Takes over what a write answered that went another way than `post`, such as readings brought in from a table. */
  took(posted: Posted): void {
    this.#wrote(posted);
  }

  #wrote(posted: Posted): void {
    this.lastPosted = posted;
    this.undoState = posted.undoState;
    this.savedAtMs = posted.entry.writtenAtMs;
    this.revision += 1;
    // Another window wrote the lines between: what they changed is read too.
    const { sequence } = posted.entry;
    if (sequence === this.#linesKnown + 1) this.#linesKnown = sequence;
    else if (sequence > this.#linesKnown) void this.refresh().catch(() => undefined);
  }
}

const sendUndo = () => safe(client.ledger.undo({ requestId: crypto.randomUUID() }));
const sendPhoto = (photo: Parameters<typeof client.photos.add>[0]) => safe(client.photos.add(photo));
type WriteAnswer = Awaited<ReturnType<typeof sendUndo> | ReturnType<typeof sendPhoto>>;

export const cellar = new CellarState();
