import type { Snippet } from 'svelte';

/** What the place in sight puts into the tool row, right of the one field for finding and chalking. */
class ToolRowState {
  tools = $state.raw<Snippet | null>(null);
}

export const toolRow = new ToolRowState();
