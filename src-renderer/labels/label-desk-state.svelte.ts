import type { Labelled, LabelDesk, LabelOrder, LabelPreview, UsedSheet } from '#core/contract/labels.ts';
import { placesOnPage, type LabelLayout } from '#core/labels/layout.ts';
import {
  firstFree,
  placeOfCell,
  placesOf,
  runOfSheets,
  type Cell,
  type SheetRun,
} from '#core/labels/placing.ts';
import type { LabelPart } from '#core/labels/label-part.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import {
  keptJars,
  keyOfLabelled,
  labelsOf,
  LABELS_MAX,
  withCopies,
  withJars,
  withoutJar,
  type ChosenJar,
} from './chosen-jars.ts';
import { choicesAtFirst, choicesFrom, type DeskChoices } from './desk-choices.ts';
import { fetchBack, putBy } from './window-store.ts';

/** Typing settles for so long before the sheet is drawn anew. */
const WAIT_MS = 150;

/** The Label Desk: what is labelled, on what, and how it will print. It outlives a visit, so that coming back finds it as it was. */
class LabelDeskState {
  desk = $state.raw<LabelDesk | null>(null);
  chosen = $state.raw<readonly ChosenJar[]>([]);
  /** What was chosen before another place handed over its own. */
  before = $state.raw<readonly ChosenJar[]>([]);
  choices = $state.raw<DeskChoices>(choicesAtFirst({ volume: 'metric' }));
  /** Where the first label goes, by layout, once the keeper has said so. */
  starts = $state.raw<Readonly<Record<string, Cell>>>({});
  /** The sheet in sight, from 1. */
  page = $state(1);
  /** The label that is shown large, counted through all labels from 0. */
  shownLabel = $state(0);
  preview = $state.raw<LabelPreview | null>(null);
  status = $state<'loading' | 'ready' | 'fault'>('loading');
  drawing = $state(false);
  /** Grows with each thing the keeper changes; what follows by itself, such as a mark of used places, does not count. */
  touched = $state(0);
  /** Said politely when something happened that is not plain from what is seen. */
  announcement = $state('');

  #file: string | null = null;
  #asking = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  layout = $derived<LabelLayout | null>(
    this.desk?.layouts.find(({ key }) => key === this.choices.layoutKey) ?? this.desk?.layouts[0] ?? null,
  );
  places = $derived(this.layout === null ? 1 : placesOnPage(this.layout));
  used = $derived<UsedSheet | null>(
    this.desk?.used.find(({ layoutKey }) => layoutKey === this.layout?.key) ?? null,
  );
  /** The keeper's own start as a place in the order of filling; null when they said none, or the sheet has no such place. */
  #saidStart = $derived.by(() => {
    const { layout } = this;
    const said = layout === null ? undefined : this.starts[layout.key];
    return layout === null || said === undefined ? null : placeOfCell(layout, this.choices.filled, said);
  });
  startAt = $derived.by(() => {
    if (this.#saidStart !== null) return this.#saidStart;
    const { layout } = this;
    return (layout === null ? null : firstFree(layout, this.choices.filled, this.used?.taken ?? [])) ?? 1;
  });
  /** Used places of the sheet. Who starts on one of them says that it is free after all, and so are those that follow it. */
  taken = $derived.by((): readonly Cell[] => {
    const { layout, startAt } = this;
    const taken = this.used?.taken ?? [];
    if (layout === null) return taken;
    const place = (cell: Cell): number => placeOfCell(layout, this.choices.filled, cell) ?? 0;
    return taken.some((cell) => place(cell) === startAt)
      ? taken.filter((cell) => place(cell) < startAt)
      : taken;
  });
  sheets = $derived<SheetRun | null>(
    this.layout === null
      ? null
      : runOfSheets(this.layout, { filled: this.choices.filled, startAt: this.startAt, taken: this.taken }),
  );
  labels = $derived(labelsOf(this.chosen));
  tooMany = $derived(this.labels > LABELS_MAX);
  order = $derived<LabelOrder | null>(
    this.layout === null || this.tooMany ? null : this.#orderOn(this.layout),
  );
  notFitting = $derived(
    this.preview?.told.filter(({ notes }) => notes.some(({ type }) => type === 'doesNotFit')) ?? [],
  );

  /** Reads what the desk remembers and, the first time for this cellar, what the window kept. */
  async load(): Promise<void> {
    const file = cellar.about?.file ?? '';
    try {
      if (this.#file !== file) {
        this.#file = file;
        this.choices = choicesFrom(parsed(fetchBack('choices')), choicesAtFirst(cellar.rules));
        this.chosen = [];
        this.before = [];
        this.starts = {};
        const kept = keptJars(fetchBack('jars'), file);
        if (kept.length > 0) {
          const jars = await this.#jarsOf(kept.map(({ of }) => of));
          const copies = new Map(kept.map((one) => [keyOfLabelled(one.of), one.copies]));
          this.chosen = withJars([], jars).map((one) => ({
            ...one,
            copies: copies.get(keyOfLabelled(one.jar.of)) ?? one.copies,
          }));
        }
      } else if (this.chosen.length > 0) {
        // Names and amounts may have changed in the book meanwhile.
        const fresh = new Map(
          (await this.#jarsOf(this.chosen.map(({ jar }) => jar.of))).map((jar) => [
            keyOfLabelled(jar.of),
            jar,
          ]),
        );
        this.chosen = this.chosen.flatMap((one) => {
          const jar = fresh.get(keyOfLabelled(one.jar.of));
          return jar === undefined ? [] : [{ ...one, jar }];
        });
      }
      this.desk = await client.labels.desk();
      this.drawSoon(0);
    } catch (error) {
      this.status = 'fault';
      faults.report(error);
    }
  }

  /** Takes what another place handed over in place of what was chosen, which can be put back. */
  async take(handed: readonly Labelled[]): Promise<void> {
    try {
      const jars = await this.#jarsOf(handed);
      this.before = this.chosen;
      this.#choose(withJars([], jars));
    } catch (error) {
      faults.report(error);
    }
  }

  putBack(): void {
    const before = this.before;
    this.before = [];
    this.#choose(
      withJars(
        before,
        this.chosen.map(({ jar }) => jar),
      ).map((one) => this.#sameCopies(one)),
    );
  }

  add(jars: Parameters<typeof withJars>[1]): void {
    this.#choose(withJars(this.chosen, jars));
  }

  setCopies(key: string, copies: number): void {
    this.#choose(withCopies(this.chosen, key, copies));
  }

  remove(key: string): void {
    this.#choose(withoutJar(this.chosen, key));
  }

  clear(): void {
    this.before = this.chosen;
    this.#choose([]);
  }

  change(change: Partial<DeskChoices>): void {
    this.choices = { ...this.choices, ...change };
    this.touched += 1;
    putBy('choices', this.choices);
    this.page = 1;
    this.drawSoon();
  }

  toggle(part: LabelPart): void {
    const { without } = this.choices;
    this.change({
      without: without.includes(part) ? without.filter((one) => one !== part) : [...without, part],
    });
  }

  startFrom(place: number): void {
    if (this.layout === null) return;
    const at = placesOf(this.layout, this.choices.filled)[Math.min(Math.max(1, place), this.places) - 1];
    if (at === undefined) return;
    this.starts = { ...this.starts, [this.layout.key]: { row: at.row, column: at.column } };
    this.page = 1;
    this.shownLabel = 0;
    this.touched += 1;
    this.drawSoon();
  }

  showPage(page: number): void {
    this.page = Math.min(Math.max(1, page), Math.max(1, this.preview?.pages ?? 1));
    this.drawSoon(0);
  }

  /** Shows a label large, and the sheet it is on. */
  showLabel(nth: number): void {
    const last = Math.max(0, this.labels - 1);
    this.shownLabel = Math.min(Math.max(0, nth), last);
    const page = this.sheets?.at(this.shownLabel).page ?? 1;
    if (page !== this.page) this.showPage(page);
  }

  /** The first label of a jar among all of them. */
  firstLabelOf(index: number): number {
    return labelsOf(this.chosen.slice(0, index));
  }

  async forgetUsed(): Promise<void> {
    if (this.layout === null) return;
    await this.markUsed(this.layout.key, []);
    this.startFrom(1);
  }

  /** Marks the sheet of a layout; the keeper's own start gives way to what follows from it. */
  async markUsed(layoutKey: string, taken: readonly Cell[]): Promise<boolean> {
    try {
      this.desk = await client.labels.markUsed({ layoutKey, taken: [...taken] });
      const { [layoutKey]: _said, ...others } = this.starts;
      this.starts = others;
      this.page = 1;
      this.drawSoon(0);
      return true;
    } catch (error) {
      faults.report(error);
      return false;
    }
  }

  tookDesk(desk: LabelDesk): void {
    this.desk = desk;
    this.drawSoon(0);
  }

  drawSoon(waitMs = WAIT_MS): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#draw(), waitMs);
  }

  async #draw(): Promise<void> {
    const asking = (this.#asking += 1);
    const { order } = this;
    if (order === null) return;
    this.drawing = true;
    try {
      const { data, error } = await safe(client.labels.preview({ order, fromPage: this.page, pages: 1 }));
      if (asking !== this.#asking) return;
      if (data === undefined) {
        if (!isDefinedError(error)) throw error;
        // A layout that was thrown away in another window.
        this.desk = await client.labels.desk();
        this.choices = { ...this.choices, layoutKey: this.desk.layouts[0]?.key ?? this.choices.layoutKey };
        this.drawSoon(0);
        return;
      }
      this.preview = data;
      this.status = 'ready';
      if (this.page > Math.max(1, data.pages)) this.showPage(data.pages);
      this.shownLabel = Math.min(this.shownLabel, Math.max(0, data.labels - 1));
    } catch (error) {
      if (asking !== this.#asking) return;
      this.status = this.preview === null ? 'fault' : 'ready';
      faults.report(error);
    } finally {
      if (asking === this.#asking) this.drawing = false;
    }
  }

  #orderOn(layout: LabelLayout): LabelOrder {
    const { filled, printer, without, content, freeLine, from, bestKept, blankLines, numbered } =
      this.choices;
    const gift = content === 'gift';
    return {
      layoutKey: layout.key,
      jars: this.chosen.map(({ jar, copies }) => ({ of: jar.of, copies })),
      ...{ startAt: this.startAt, taken: [...this.taken], filled, printer, without: [...without], content },
      ...{ freeLine: freeLine.trim(), from: gift ? from.trim() : '', bestKept: gift ? bestKept.trim() : '' },
      ...{ blankLines, numbered },
    };
  }

  #sameCopies(one: ChosenJar): ChosenJar {
    const key = keyOfLabelled(one.jar.of);
    return this.chosen.find(({ jar }) => keyOfLabelled(jar.of) === key) ?? one;
  }

  #choose(chosen: readonly ChosenJar[]): void {
    this.chosen = chosen;
    this.touched += 1;
    this.page = 1;
    this.shownLabel = 0;
    putBy('jars', {
      file: this.#file ?? '',
      jars: chosen.map(({ jar, copies }) => ({ of: jar.of, copies })),
    });
    this.drawSoon();
  }

  #jarsOf(of: readonly Labelled[]) {
    const kinds: Labelled['kind'][] = ['vessel', 'batch', 'lot'];
    return client.labels.jars({ text: '', of: [...of], kinds, limit: 1000 });
  }
}

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? 'null');
  } catch {
    return null;
  }
}

export const labelDesk = new LabelDeskState();
