import type { Leaf } from '#core/contract/book.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import { safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { faultOf, faults } from '../cellar/faults.svelte.ts';

/** Lines of the book asked for at a time. */
const PAGE = 200;
/** Batches back along the line whose lines are read too, for what happened to the liquid before this batch began. */
const ANCESTORS = 4;

/** One leaf of the Cellar Book: the batch as it stands and the lines of the book that speak of it, newest first. */
export class LeafState {
  leaf = $state.raw<Leaf | null>(null);
  entries = $state.raw<readonly EntryRow[]>([]);
  /** True while the book has older lines than those in `entries`. */
  more = $state(false);
  status = $state<'loading' | 'there' | 'gone' | 'fault'>('loading');
  fault = $state('');
  /** Lines of the batches this one was taken from, up to when the liquid left them. */
  ancestorEntries = $state.raw<readonly EntryRow[]>([]);
  #asked = 0;

  /** Reads the leaf and as many of its lines as were shown. The old leaf stays in sight until the new one is there. */
  async load(batchId: BatchId): Promise<void> {
    const asked = ++this.#asked;
    if (this.leaf?.batchId !== batchId) this.#clear();
    const limit = Math.min(500, Math.max(PAGE, this.entries.length));
    try {
      const [found, lines] = await Promise.all([
        safe(client.book.leaf({ batchId })),
        client.ledger.entries({ about: { kind: 'batch', batchId }, beforeSequence: null, limit }),
      ]);
      if (asked !== this.#asked) return;
      if (found.error !== null) {
        if (!found.isDefined) throw found.error;
        this.#clear();
        this.status = 'gone';
        return;
      }
      const ancestorEntries = await this.#linesOfAncestors(found.data);
      if (asked !== this.#asked) return;
      this.leaf = found.data;
      this.entries = newestFirst(lines.entries);
      this.more = lines.more;
      this.ancestorEntries = ancestorEntries;
      this.status = 'there';
    } catch (error) {
      if (asked !== this.#asked) return;
      faults.report(error);
      const { title, message } = faultOf(error);
      this.fault = `${title} ${message}`;
      this.status = this.leaf === null ? 'fault' : 'there';
    }
  }

  /** Reads the next older lines of the book. */
  async older(): Promise<void> {
    const asked = this.#asked;
    const { leaf } = this;
    const oldest = this.entries.reduce((least, { sequence }) => Math.min(least, sequence), Infinity);
    if (leaf === null || oldest === Infinity || !this.more) return;
    try {
      const about = { kind: 'batch', batchId: leaf.batchId } as const;
      const lines = await client.ledger.entries({ about, beforeSequence: oldest, limit: PAGE });
      if (asked !== this.#asked) return;
      this.entries = newestFirst([...this.entries, ...lines.entries]);
      this.more = lines.more;
    } catch (error) {
      faults.report(error);
    }
  }

  async #linesOfAncestors(leaf: Leaf): Promise<readonly EntryRow[]> {
    const line = ancestorsOf(leaf).slice(-ANCESTORS);
    const lines = await Promise.all(
      line.map(async ({ batchId, untilMs }) => {
        const about = { kind: 'batch', batchId } as const;
        const { entries } = await client.ledger.entries({ about, beforeSequence: null, limit: PAGE });
        return entries.filter(({ happenedAtMs }) => happenedAtMs < untilMs);
      }),
    );
    return lines.flat();
  }

  #clear(): void {
    this.leaf = null;
    this.entries = [];
    this.ancestorEntries = [];
    this.more = false;
    this.status = 'loading';
  }
}

/** By when it happened; of one moment, what was written later comes first. */
export function newestFirst(entries: readonly EntryRow[]): readonly EntryRow[] {
  return [...entries].sort((a, b) => b.happenedAtMs - a.happenedAtMs || b.sequence - a.sequence);
}

/** The batches a leaf's stages came from, oldest first, each with the moment its liquid became the next one's. */
export function ancestorsOf(
  leaf: Pick<Leaf, 'batchId' | 'startedAtMs' | 'spans'>,
): readonly { readonly batchId: BatchId; readonly untilMs: number }[] {
  const firstMs = new Map<BatchId, number>();
  for (const span of leaf.spans) if (!firstMs.has(span.batchId)) firstMs.set(span.batchId, span.fromMs);
  const line = [...firstMs.keys()].filter((batchId) => batchId !== leaf.batchId);
  return line.map((batchId, i) => {
    const next = line[i + 1];
    return { batchId, untilMs: (next === undefined ? undefined : firstMs.get(next)) ?? leaf.startedAtMs };
  });
}
