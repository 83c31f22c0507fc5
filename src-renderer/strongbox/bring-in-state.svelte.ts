import type { BroughtIn, Intake } from '#core/contract/exchange.ts';
import type { Progress } from '#core/contract/cellar.ts';
import type { LookedOver } from '#core/contract/looked-over.ts';
import { TEXT_LENGTH_MAX, type Settled } from '#core/exchange/settled.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { isDefinedError } from '@orpc/client';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { readTextFile, type TextOfFile } from './read-text-file.ts';

export type BringInState =
  | { readonly type: 'idle' }
  | { readonly type: 'looking' | 'writing'; readonly progress: Progress | null }
  | { readonly type: 'stopped' }
  | { readonly type: 'refused'; readonly refusal: LedgerError }
  | { readonly type: 'notWritten'; readonly why: string }
  | { readonly type: 'done'; readonly done: BroughtIn };

const UNSETTLED: Settled = {
  ...{ separator: null, decimalMark: null, dateOrder: null, headings: true, columns: null, vesselId: null },
  ...{ acidityAs: null, gravityInstrument: null, accepted: [], source: 'pasted rows' },
};

/** A table on its way in: its text, what is settled of it, what was found, and what came of bringing it in. */
class BringIn {
  text = $state('');
  encoding = $state<TextOfFile['encoding']>('utf-8');
  settled = $state.raw<Settled>(UNSETTLED);
  looked = $state.raw<LookedOver | null>(null);
  state = $state.raw<BringInState>({ type: 'idle' });
  /** The table has more in it than goes into one call. */
  tooLong = $state(false);
  intakes = $state.raw<readonly Intake[]>([]);
  #stop: AbortController | null = null;
  /** Kept while the same rows are asked for, so that a call sent again after a fault writes once. */
  #requestId = crypto.randomUUID();

  get busy(): boolean {
    return this.state.type === 'looking' || this.state.type === 'writing';
  }

  async takeFile(file: File): Promise<void> {
    try {
      const { text, encoding } = await readTextFile(file);
      this.encoding = encoding;
      this.takeText(text, file.name);
    } catch (error) {
      faults.report(error);
    }
  }

  takeText(text: string, source: string): void {
    this.text = text;
    this.settled = { ...UNSETTLED, source: source.trim().slice(0, 120) || UNSETTLED.source };
    this.looked = null;
    // Signs that a call writes as two, such as quotes, count as two.
    this.tooLong =
      text.length > TEXT_LENGTH_MAX || new Blob([JSON.stringify(text)]).size > TEXT_LENGTH_MAX + 100_000;
    if (text.trim() === '' || this.tooLong) {
      this.stop();
      this.state = { type: 'idle' };
    } else void this.look();
  }

  /** Puts the table away. */
  clear(): void {
    this.encoding = 'utf-8';
    this.takeText('', '');
  }

  settle(change: Partial<Settled>): void {
    // Other columns mean other lines in doubt.
    const accepted = 'accepted' in change ? this.settled.accepted : [];
    this.settled = { ...this.settled, accepted, ...change };
    void this.look();
  }

  accept(line: number, wanted: boolean): void {
    const others = this.settled.accepted.filter((known) => known !== line);
    this.settle({ accepted: wanted ? [...others, line] : others });
  }

  stop(): void {
    this.#stop?.abort();
  }

  async look(): Promise<void> {
    const signal = this.#begin('looking');
    const { text, settled } = this;
    this.#requestId = crypto.randomUUID();
    await this.#run(signal, async () => {
      const looked = await this.#follow<LookedOver>(
        await client.exchange.lookOver({ text, settled }, { signal }),
        'looking',
        signal,
      );
      if (looked === null) return;
      this.looked = looked;
      this.state = { type: 'idle' };
    });
  }

  async bringIn(): Promise<void> {
    const signal = this.#begin('writing');
    const { text, settled } = this;
    const requestId = this.#requestId;
    await this.#run(signal, async () => {
      const done = await this.#follow<BroughtIn>(
        await client.exchange.bringIn({ requestId, text, settled }, { signal }),
        'writing',
        signal,
      );
      if (done === null) return;
      this.state = { type: 'done', done };
      if (done.posted !== null) cellar.took(done.posted);
      await this.loadIntakes();
    });
  }

  async loadIntakes(): Promise<void> {
    try {
      this.intakes = await client.exchange.intakes();
    } catch (error) {
      faults.report(error);
    }
  }

  async takeBack(intake: Intake): Promise<void> {
    try {
      const requestId = crypto.randomUUID();
      cellar.took(await client.exchange.takeBack({ requestId, intake: intake.requestId }));
      if (this.state.type === 'done') this.state = { type: 'idle' };
    } catch (error) {
      if (!isGone(error)) faults.report(error);
    }
    await this.loadIntakes();
  }

  #begin(type: 'looking' | 'writing'): AbortSignal {
    this.#stop?.abort();
    this.#stop = new AbortController();
    this.state = { type, progress: null };
    return this.#stop.signal;
  }

  /** Follows a streamed call to its end; null when it was stopped or another has begun. */
  async #follow<Done>(
    steps: AsyncIterator<Progress, Done>,
    type: 'looking' | 'writing',
    signal: AbortSignal,
  ): Promise<Done | null> {
    for (;;) {
      const step = await steps.next();
      if (signal.aborted) return null;
      if (step.done === true) return step.value;
      this.state = { type, progress: step.value };
    }
  }

  async #run(signal: AbortSignal, work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      if (!signal.aborted) this.state = failureOf(error);
    }
    // Another call may have begun meanwhile; then the state is its own.
    if (signal.aborted && this.#stop?.signal === signal) this.state = { type: 'stopped' };
  }
}

function isGone(error: unknown): boolean {
  return error instanceof Error && Reflect.get(error, 'code') === 'NOT_FOUND';
}

function failureOf(error: unknown): BringInState {
  if (error instanceof Error && isDefinedError(error)) {
    const code: unknown = Reflect.get(error, 'code');
    const data: unknown = Reflect.get(error, 'data');
    if (code === 'REFUSED') return { type: 'refused', refusal: data as LedgerError };
    if (code === 'NOT_WRITTEN') return { type: 'notWritten', why: (data as { readonly type: string }).type };
    if (code === 'NOT_SETTLED') return { type: 'idle' };
  }
  faults.report(error);
  return { type: 'notWritten', why: 'OtherFault' };
}

export const bringingIn = new BringIn();
