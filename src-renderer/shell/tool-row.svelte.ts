import type { Snippet } from 'svelte';

/**
 * What the place in sight puts into the tool row, right of the one field for finding and chalking. While one place
 * gives way to the next, both are there for a moment: the newest stands, and the older one takes away only its own.
 */
class ToolRowState {
  #tools = $state.raw<readonly { readonly draw: Snippet }[]>([]);

  get tools(): Snippet | null {
    return this.#tools.at(-1)?.draw ?? null;
  }

  /** Adds tools; returns what takes them away again. */
  add(draw: Snippet): () => void {
    const mine = { draw };
    this.#tools = [...this.#tools, mine];
    return () => {
      this.#tools = this.#tools.filter((other) => other !== mine);
    };
  }
}

export const toolRow = new ToolRowState();
