import type { Pedigree, PedigreeRoot } from '#core/contract/pedigree.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { Component } from 'svelte';

/** Places that are not needed for the first look at the shelf: fetched once it stands, or when they are first asked for. */
class LatePlaces {
  leaf = $state.raw<Component<{ batchId: BatchId }> | null>(null);
  compare = $state.raw<Component<{ batchIds: readonly BatchId[] }> | null>(null);
  pedigree = $state.raw<Component<{ of: PedigreeRoot; direction: Pedigree['direction'] }> | null>(null);
  bench = $state.raw<Component | null>(null);
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
    const [leaf, compare, pedigree, bench, strongbox] = await Promise.all([
      import('./cellar-book/Leaf.svelte'),
      import('./cellar-book/CompareView.svelte'),
      import('./pedigree/PedigreeView.svelte'),
      import('./bench/BenchView.svelte'),
      import('./strongbox/StrongboxView.svelte'),
    ]);
    this.leaf = leaf.default;
    this.compare = compare.default;
    this.pedigree = pedigree.default;
    this.bench = bench.default;
    this.strongbox = strongbox.default;
  }
}

export const latePlaces = new LatePlaces();
