import type { ReadingRow } from '#core/contract/shelves.ts';
import type { Pin } from './pins.ts';

/** Where one stands on the charts: on a reading, on a numbered act, or nowhere yet. */
export class ChartCursor {
  #at = $state.raw<{ readonly kind: 'reading' | 'pin'; readonly index: number } | null>(null);
  readonly #readings: () => readonly ReadingRow[];
  readonly #pins: () => readonly Pin[];

  constructor(readings: () => readonly ReadingRow[], pins: () => readonly Pin[]) {
    this.#readings = readings;
    this.#pins = pins;
  }

  get reading(): ReadingRow | null {
    return this.#at?.kind === 'reading' ? (this.#readings()[this.#at.index] ?? null) : null;
  }

  get pin(): Pin | null {
    return this.#at?.kind === 'pin' ? (this.#pins()[this.#at.index] ?? null) : null;
  }

  get atMs(): number | null {
    return this.reading?.atMs ?? this.pin?.atMs ?? null;
  }

  /** Which reading it is on, counted from 1; on an act, the last reading before it. */
  get number(): number {
    const { atMs } = this;
    if (this.#at?.kind === 'reading') return this.#at.index + 1;
    const before = this.#readings().filter((reading) => atMs !== null && reading.atMs <= atMs).length;
    return Math.max(1, before);
  }

  /** Does what a key asks; false when the key means nothing here. */
  heed(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean {
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    const readings = this.#readings();
    switch (event.key) {
      case 'ArrowRight':
      case 'ArrowUp':
        return this.#goTo(this.#nextIndex());
      case 'ArrowLeft':
      case 'ArrowDown':
        return this.#goTo(this.#indexBefore());
      case 'Home':
        return this.#goTo(0);
      case 'End':
        return this.#goTo(readings.length - 1);
      case 'e':
      case 'E':
        return this.#goToNextPin();
      case 'Escape':
        if (this.#at === null) return false;
        this.#at = null;
        return true;
      default:
        return false;
    }
  }

  /** Goes to the reading nearest in time. */
  goNear(atMs: number): void {
    let nearest = -1;
    let least = Infinity;
    this.#readings().forEach((reading, index) => {
      const away = Math.abs(reading.atMs - atMs);
      if (away < least) [least, nearest] = [away, index];
    });
    if (nearest >= 0) this.#at = { kind: 'reading', index: nearest };
  }

  goToPin(number: number): void {
    const index = this.#pins().findIndex((pin) => pin.number === number);
    if (index >= 0) this.#at = { kind: 'pin', index };
  }

  #goTo(index: number): boolean {
    const last = this.#readings().length - 1;
    if (last < 0) return false;
    this.#at = { kind: 'reading', index: Math.min(last, Math.max(0, index)) };
    return true;
  }

  /** The first press lands on the newest reading; from an act, on the first reading after it. */
  #nextIndex(): number {
    if (this.#at === null) return this.#readings().length - 1;
    if (this.#at.kind === 'reading') return this.#at.index + 1;
    const atMs = this.pin?.atMs ?? 0;
    const after = this.#readings().findIndex((reading) => reading.atMs > atMs);
    return after < 0 ? this.#readings().length - 1 : after;
  }

  #indexBefore(): number {
    if (this.#at === null) return this.#readings().length - 1;
    if (this.#at.kind === 'reading') return this.#at.index - 1;
    const atMs = this.pin?.atMs ?? 0;
    return this.#readings().findLastIndex((reading) => reading.atMs <= atMs);
  }

  /** The next act after where one stands, the first again after the last. */
  #goToNextPin(): boolean {
    const pins = this.#pins();
    if (pins.length === 0) return false;
    const { atMs } = this;
    const at = this.#at;
    const next =
      at?.kind === 'pin'
        ? (at.index + 1) % pins.length
        : pins.findIndex((pin) => atMs === null || pin.atMs > atMs);
    this.#at = { kind: 'pin', index: Math.max(0, next) };
    return true;
  }
}
