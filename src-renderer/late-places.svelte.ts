import type { Pedigree, PedigreeRoot } from '#core/contract/pedigree.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { PaperDestination } from './navigation/destination.ts';
import type { Component } from 'svelte';

/** What is not needed for the first look at the shelf: fetched once it stands, or when it is first asked for. */
class LatePlaces {
  /** The forms of all acts. */
  acts = $state.raw<Component | null>(null);
  /** The sheets that put lines of the book right. */
  corrections = $state.raw<Component | null>(null);
  book = $state.raw<Component | null>(null);
  cultures = $state.raw<Component | null>(null);
  leaf = $state.raw<Component<{ batchId: BatchId }> | null>(null);
  compare = $state.raw<Component<{ batchIds: readonly BatchId[] }> | null>(null);
  pedigree = $state.raw<Component<{ of: PedigreeRoot; direction: Pedigree['direction'] }> | null>(null);
  bench = $state.raw<Component | null>(null);
  calendar = $state.raw<Component | null>(null);
  labels = $state.raw<Component | null>(null);
  paper = $state.raw<Component<{ to: PaperDestination }> | null>(null);
  strongbox = $state.raw<Component | null>(null);
  #fetched: Promise<void> | null = null;

  /** Fetches them once; later calls wait for the same answer. A failure is told and can be tried again. */
  fetch(): Promise<void> {
    this.#fetched ??= this.#fetchAll().catch((error: unknown) => {
      this.#fetched = null;
      throw error;
    });
    return this.#fetched;
  }

  async #fetchAll(): Promise<void> {
    const [
      acts,
      corrections,
      book,
      cultures,
      leaf,
      compare,
      pedigree,
      bench,
      calendar,
      labels,
      paper,
      strongbox,
    ] = await Promise.all([
      import('./acts/ActDialogs.svelte'),
      import('./corrections/CorrectionDialogs.svelte'),
      import('./cellar-book/BookView.svelte'),
      import('./cultures/CulturesView.svelte'),
      import('./cellar-book/Leaf.svelte'),
      import('./cellar-book/CompareView.svelte'),
      import('./pedigree/PedigreeView.svelte'),
      import('./bench/BenchView.svelte'),
      import('./calendar/CalendarView.svelte'),
      import('./labels/LabelDeskView.svelte'),
      import('./paper/PaperView.svelte'),
      import('./strongbox/StrongboxView.svelte'),
    ]);
    this.acts = acts.default;
    this.corrections = corrections.default;
    this.book = book.default;
    this.cultures = cultures.default;
    this.leaf = leaf.default;
    this.compare = compare.default;
    this.pedigree = pedigree.default;
    this.bench = bench.default;
    this.calendar = calendar.default;
    this.labels = labels.default;
    this.paper = paper.default;
    this.strongbox = strongbox.default;
  }
}

export const latePlaces = new LatePlaces();
