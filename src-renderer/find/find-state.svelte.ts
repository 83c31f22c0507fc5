import type { Found, FoundLabel } from '#core/contract/find.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { acts } from '../acts/acts-state.svelte.ts';
import { browserTime } from '../acts/browser-time.ts';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import type { Destination } from '../navigation/destination.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import { sayLedgerError } from '../words/error-words.ts';
import { vesselTitle } from '../words/vessel-words.ts';
import { sayChalked } from './chalk-words.ts';
import { chalkedReading } from './chalked-reading.ts';
import {
  fixGroup,
  foundGroups,
  nothingFoundGroup,
  type FindOption,
  type OptionGroup,
} from './find-options.ts';
import { lineMeaning, type LineMeaning } from './line-meaning.ts';

const WAIT_MS = 60;
const MOST_FOUND = 8;

/** What the cellar knows of the line, and so what Enter will do. */
interface Answer {
  readonly line: string;
  readonly groups: readonly OptionGroup[];
  /** What Enter does while no option is chosen. */
  readonly says: string;
  /** Said after it while no option is chosen. */
  readonly howToChoose?: string;
  readonly tone: 'plain' | 'ready' | 'asks';
  readonly enter: () => Promise<void>;
  /** Whether the first option is chosen from the start. */
  readonly chooseFirst: boolean;
}

/** The one field that finds, opens a scanned label and chalks a reading. What Enter will do is said before it is pressed. */
class FindState {
  line = $state('');
  open = $state(false);
  chosen = $state<string | null>(null);
  /** Pieces kept although they look unlikely, for the line as it stands. */
  kept = $state.raw<readonly string[]>([]);
  answer = $state.raw<Answer | null>(null);
  writing = $state(false);
  /** Why the last Enter wrote nothing; gone with the next change of the line. */
  refused = $state<string | null>(null);
  /** No answer came to the last question; the line stays as it is. */
  unanswered = $state(false);

  #timer: ReturnType<typeof setTimeout> | undefined;
  /** The line under which the keeper stepped to an option: a late answer to it leaves that choice alone. */
  #steppedIn: string | null = null;
  #asking = 0;

  meaning = $derived<LineMeaning>(lineMeaning(this.line, cellar.rules, this.kept));
  current = $derived(this.answer?.line === this.line ? this.answer : null);
  groups = $derived<readonly OptionGroup[]>(this.line.trim() === '' ? [] : (this.answer?.groups ?? []));
  options = $derived<readonly FindOption[]>(this.groups.flatMap(({ options }) => options));
  chosenOption = $derived(this.options.find(({ key }) => key === this.chosen) ?? null);
  tone = $derived(this.refused === null && !this.unanswered ? (this.current?.tone ?? 'plain') : 'asks');

  says = $derived.by<string>(() => {
    if (this.refused !== null) return this.refused;
    if (this.line.trim() === '') {
      return 'Type a name to find it, or a vessel and what you read: B1 1.010 19C.';
    }
    if (this.unanswered) return 'The cellar does not answer. The line stays here; Retry asks again.';
    if (this.current === null) return this.chosenOption?.says ?? 'Looking…';
    const { says, tone, howToChoose = '' } = this.current;
    if (this.chosenOption === null) return `${says} ${howToChoose}`.trim();
    return tone === 'asks' ? `${says} ${this.chosenOption.says}` : this.chosenOption.says;
  });

  /** The line has changed: ask the cellar soon. */
  changed(): void {
    this.refused = null;
    this.kept = [];
    this.open = true;
    this.#askSoon();
  }

  /** Looks again, for instance after something was written. */
  again(): void {
    if (this.line.trim() !== '' && (this.open || this.unanswered)) void this.#ask();
  }

  clear(): void {
    clearTimeout(this.#timer);
    this.#asking += 1;
    this.line = '';
    this.kept = [];
    this.refused = null;
    this.unanswered = false;
    this.answer = null;
    this.chosen = null;
  }

  move(step: 1 | -1): void {
    this.open = true;
    if (this.options.length === 0) return;
    const at = this.options.findIndex(({ key }) => key === this.chosen);
    const next = at < 0 ? (step === 1 ? 0 : this.options.length - 1) : at + step;
    this.chosen = this.options[(next + this.options.length) % this.options.length]?.key ?? null;
    this.#steppedIn = this.line;
  }

  /** Enter: a scanner presses it before the cellar has answered, so the answer is awaited first. */
  async enter(): Promise<void> {
    if (this.line.trim() === '' || this.writing) return;
    if (this.current === null) await this.#ask();
    if (this.current === null) return;
    if (this.chosenOption !== null) this.take(this.chosenOption);
    else await this.current.enter();
  }

  take(option: FindOption): void {
    const { act } = option;
    switch (act.type) {
      case 'go':
        this.#done();
        nav.go(act.to);
        break;
      case 'startBatch':
        this.#done();
        acts.open({ kind: 'startBatch', name: act.name });
        break;
      case 'addVessel':
        this.#done();
        acts.open({ kind: 'addVessel' });
        break;
      case 'replaceLine':
        this.line = act.line;
        this.changed();
        break;
      case 'keepPiece':
        this.kept = [...this.kept, act.piece];
        this.refused = null;
        void this.#ask();
        break;
    }
  }

  #done(): void {
    this.clear();
    this.open = false;
  }

  #askSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#ask(), WAIT_MS);
  }

  async #ask(): Promise<void> {
    clearTimeout(this.#timer);
    const asking = (this.#asking += 1);
    const { line, meaning } = this;
    try {
      const answer = await this.#answerTo(line, meaning);
      if (asking !== this.#asking) return;
      this.unanswered = false;
      this.answer = answer;
      const options = answer.groups.flatMap(({ options }) => options);
      const stillThere = options.some(({ key }) => key === this.chosen);
      const keepersChoice = stillThere && this.#steppedIn === line;
      if (answer.chooseFirst && !keepersChoice) this.chosen = options[0]?.key ?? null;
      else if (!stillThere || answer.tone !== 'plain') this.chosen = null;
    } catch (error) {
      if (asking === this.#asking) this.unanswered = true;
      faults.report(error);
    }
  }

  async #answerTo(line: string, meaning: LineMeaning): Promise<Answer> {
    switch (meaning.type) {
      case 'nothing':
        return { line, groups: [], says: '', tone: 'plain', enter: async () => {}, chooseFirst: false };
      case 'label':
        return labelAnswer(line, meaning.code, await this.#labelled(meaning.code), () => {
          this.#done();
        });
      case 'chalk': {
        const row = await client.find.vesselAt({ code: meaning.vesselCode });
        return row === null ? this.#found(line, meaning.vesselCode) : this.#chalkAnswer(line, meaning, row);
      }
      case 'unclearChalk': {
        const row = await client.find.vesselAt({ code: meaning.vesselCode });
        if (row === null) return this.#found(line, meaning.vesselCode);
        return asks(line, `${called(row)}: ${meaning.said.sentence}`, [fixGroup(meaning.said)]);
      }
      case 'find':
        return this.#found(line, null);
    }
  }

  async #found(line: string, noVesselAt: string | null): Promise<Answer> {
    const text = line.trim().slice(0, 200);
    const found = await client.find.everywhere({ text, limit: MOST_FOUND });
    const groups = foundGroups(found, { rules: cellar.rules, nowMs: cellar.now() });
    const missing = noVesselAt === null ? '' : `No vessel stands at ${noVesselAt}. `;
    const count = countOf(found);
    if (count > 0) {
      return {
        line,
        groups,
        says: `${missing}${count} found.`,
        tone: 'plain',
        enter: async () => {},
        chooseFirst: noVesselAt === null,
      };
    }
    return asks(line, `${missing}Nothing called “${shortened(text)}”.`, [
      nothingFoundGroup(text.slice(0, 120)),
    ]);
  }

  #chalkAnswer(line: string, meaning: Extract<LineMeaning, { type: 'chalk' }>, row: ShelfRow): Answer {
    if (row.stage === 'empty') {
      return asks(
        line,
        `${called(row)} is empty, so there is nothing in it to measure. Enter writes nothing.`,
        [],
      );
    }
    const reading = chalkedReading(meaning.readings, row, cellar.rules);
    if (reading.type === 'notAReading') {
      return asks(
        line,
        `A ${reading.kind} is not part of a reading. Write it as a note instead. Enter writes nothing.`,
        [],
      );
    }
    if (reading.type === 'levelOfNothing') {
      return asks(
        line,
        `A level is more than nothing. Where ${called(row)} is empty now, draw off or throw out what the book has in it. Enter writes nothing.`,
        [],
      );
    }
    if (reading.type === 'acidMissing')
      return asks(line, WHICH_ACID, [fixGroup(acidFixes(line, reading.asTyped))]);
    const said = sayChalked(reading.values, cellar.rules);
    return {
      line,
      groups: [],
      says: `Enter writes a reading: ${said}, on ${called(row)}, now.`,
      tone: 'ready',
      enter: () => this.#write(line, reading, row),
      chooseFirst: false,
    };
  }

  async #write(
    line: string,
    reading: Extract<ReturnType<typeof chalkedReading>, { type: 'reading' }>,
    row: ShelfRow,
  ): Promise<void> {
    this.writing = true;
    const typed = { ...reading.typed, line: line.trim() };
    const result = await cellar.post(
      { kind: 'recordReading', vesselId: row.vesselId, values: reading.values },
      { typed },
    );
    this.writing = false;
    if (result.ok) this.#done();
    else if (result.refusal !== undefined) {
      this.refused = sayLedgerError(result.refusal, { house: cellar.rules, localTime: browserTime }).sentence;
    } else this.refused = result.fault.message;
  }

  async #labelled(code: string): Promise<FoundLabel | null> {
    return code === '' ? null : client.find.label({ id: code.slice(0, 80) });
  }
}

const WHICH_ACID =
  'An acidity counts as some acid, and this vessel does not tell which. Enter writes nothing until you choose.';

function acidFixes(
  line: string,
  asTyped: string,
): { sentence: string; fixes: { label: string; text: string; how: 'use' }[] } {
  const at = line.lastIndexOf(asTyped);
  const end = at < 0 ? line.trimEnd().length : at + asTyped.length;
  const fixes = ['malic', 'tartaric', 'acetic', 'lactic', 'citric'].map((acid) => ({
    label: `As ${acid} acid`,
    text: `${line.slice(0, end)} as ${acid}${line.slice(end)}`,
    how: 'use' as const,
  }));
  return { sentence: WHICH_ACID, fixes };
}

function asks(line: string, says: string, groups: readonly OptionGroup[]): Answer {
  const hasOptions = groups.some(({ options }) => options.length > 0);
  return {
    line,
    groups,
    says,
    howToChoose: hasOptions ? 'Press ↓ to choose.' : '',
    tone: 'asks',
    enter: async () => {},
    chooseFirst: false,
  };
}

function labelAnswer(line: string, code: string, found: FoundLabel | null, done: () => void): Answer {
  if (found === null) {
    return asks(
      line,
      code === '' ? 'Type the code on the label after UC:.' : `Nothing in this cellar has the label ${code}.`,
      [],
    );
  }
  const leads = whereLabelLeads(found);
  return {
    line,
    groups: [],
    says: leads.says,
    tone: 'ready',
    enter: async () => {
      done();
      nav.go(leads.to);
    },
    chooseFirst: false,
  };
}

function whereLabelLeads(found: FoundLabel): { readonly says: string; readonly to: Destination } {
  if (found.kind === 'vessel') {
    const { row } = found;
    return {
      says: `Enter shows ${called(row)} on the shelf.`,
      to: { place: 'shelves', vesselId: row.vesselId },
    };
  }
  const { batch } = found;
  const left = found.kind === 'lot' ? `, of whose bottles ${found.bottlesLeft} are left` : '';
  return {
    says: `Enter opens the leaf of ${batch.name} (${batch.code})${left}.`,
    to: { place: 'leaf', batchId: batch.batchId },
  };
}

function called(row: ShelfRow): string {
  return `${vesselTitle(row)} (${row.spot ?? `vessel ${row.number}`})`;
}

function countOf(found: Found): number {
  return found.vessels.length + found.batches.length + found.cultures.length + found.days.length;
}

function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}

export const find = new FindState();
