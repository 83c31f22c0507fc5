const KEPT = 'undercroft.stayAwake';

/** What of the window this needs: asks the system to leave the screen on, and gives what lets it go again. */
export interface ScreenLocks {
  request(): Promise<{ release(): Promise<void> }>;
}

/**
 * Whether the screen is kept on while hands are sticky. It is a habit of this machine and not of the cellar. The system may
 * refuse, for instance on a low battery; then the screen goes dark as ever, and the setting says so.
 */
export class StayAwake {
  wanted = $state(false);
  refused = $state(false);
  readonly #locks: ScreenLocks | null;

  constructor(locks: ScreenLocks | null) {
    this.#locks = locks;
    try {
      this.wanted = localStorage.getItem(KEPT) === 'yes';
    } catch {
      // Without storage it is asked for anew in each window.
    }
  }

  want(wanted: boolean): void {
    this.wanted = wanted;
    try {
      localStorage.setItem(KEPT, wanted ? 'yes' : 'no');
    } catch {
      // It lasts as long as the window.
    }
  }

  /**
   * Holds the screen while it is wanted in pantry mode and the window is in sight; call inside an effect. The system lets
   * go by itself of a window that is hidden, so it is asked again when the window comes back. Returns what ends it.
   */
  follow(pantry: boolean): () => void {
    this.refused = false;
    if (!pantry || !this.wanted) return () => undefined;
    let ended = false;
    let held: { release(): Promise<void> } | null = null;
    const hold = async (): Promise<void> => {
      if (document.visibilityState !== 'visible') return;
      const lock = await (this.#locks?.request() ?? Promise.reject(new Error('no screen locks'))).catch(
        () => null,
      );
      if (ended) await lock?.release();
      else {
        held = lock;
        this.refused = lock === null;
      }
    };
    const again = (): void => void hold();
    document.addEventListener('visibilitychange', again);
    void hold();
    return () => {
      ended = true;
      document.removeEventListener('visibilitychange', again);
      void held?.release();
    };
  }
}

export const stayAwake = new StayAwake(screenLocks());

function screenLocks(): ScreenLocks | null {
  const { wakeLock } = navigator as { readonly wakeLock?: WakeLock };
  return wakeLock === undefined ? null : { request: () => wakeLock.request('screen') };
}
