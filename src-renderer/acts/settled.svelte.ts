/** How long nothing is typed before a text that cannot be read is called wrong. */
const PAUSE_MS = 500;

/** Whether a text has stood unchanged for a moment: one that is still being typed is not called wrong yet. */
export function settledText(text: () => string): { readonly isSettled: boolean } {
  let stood = $state('');
  $effect(() => {
    const now = text();
    const timer = setTimeout(() => {
      stood = now;
    }, PAUSE_MS);
    return () => {
      clearTimeout(timer);
    };
  });
  return {
    get isSettled() {
      return stood === text();
    },
  };
}
