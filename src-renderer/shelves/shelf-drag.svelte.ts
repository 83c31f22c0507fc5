import type { ShelfRow } from '#core/contract/shelves.ts';
import type { ShelfId } from '#core/ledger/ids.ts';
import { acts } from '../acts/acts-state.svelte.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { transferFit } from '../words/fit-words.ts';
import { slotAt, type ShelfLayout } from './shelf-layout.ts';
import { spotAt, type Spot } from './shelf-moves.ts';
import { shelves } from './shelves-state.svelte.ts';

/** A press becomes a drag once the pointer has gone this far, px. */
const BEGINS_AFTER = 6;
/** This near to the upper and lower edge the shelves scroll along, px. */
const EDGE = 44;
const EDGE_STEP = 14;

/**
 * Carrying a vessel with the pointer. Let go over another vessel it opens the plan of a transfer, over a free place
 * it moves the vessel there; over anything else nothing happens. Everything it does can be done without it.
 */
export class ShelfDrag {
  carried = $state.raw<ShelfRow | null>(null);
  x = $state(0);
  y = $state(0);
  words = $state('');
  suits = $state(false);

  readonly #scroller: () => HTMLElement | null;
  readonly #layout: () => ShelfLayout;
  #pressed: { readonly row: ShelfRow; readonly x: number; readonly y: number } | null = null;
  #over: Spot | null = null;
  #suppressClick = false;
  #frame = 0;

  constructor(scroller: () => HTMLElement | null, layout: () => ShelfLayout) {
    this.#scroller = scroller;
    this.#layout = layout;
  }

  press(event: PointerEvent, spot: Spot | null): void {
    this.#suppressClick = false;
    if (event.button !== 0 || event.pointerType === 'touch' || spot === null) return;
    if (event.ctrlKey || event.metaKey || event.shiftKey || shelves.transferFrom !== null) return;
    const row = shelves.data.at(spot.group, spot.slot);
    if (!row) return;
    this.#pressed = { row, x: event.clientX, y: event.clientY };
    window.addEventListener('pointermove', this.#moved);
    window.addEventListener('pointerup', this.#released);
    window.addEventListener('pointercancel', this.end);
  }

  /** True for the click that the end of a drag brings with it. */
  takeSuppressedClick(): boolean {
    const suppressed = this.#suppressClick;
    this.#suppressClick = false;
    return suppressed;
  }

  readonly end = (): void => {
    window.removeEventListener('pointermove', this.#moved);
    window.removeEventListener('pointerup', this.#released);
    window.removeEventListener('pointercancel', this.end);
    window.removeEventListener('keydown', this.#keyed, true);
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    this.#pressed = null;
    this.#over = null;
    this.carried = null;
  };

  readonly #moved = (event: PointerEvent): void => {
    const pressed = this.#pressed;
    if (pressed === null) return;
    if (this.carried === null) {
      if (Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) < BEGINS_AFTER) return;
      this.carried = pressed.row;
      window.addEventListener('keydown', this.#keyed, true);
    }
    this.x = event.clientX;
    this.y = event.clientY;
    this.#look();
    if (this.#frame === 0) this.#frame = requestAnimationFrame(this.#scrollAtEdge);
  };

  readonly #released = (): void => {
    const { carried } = this;
    const over = this.#over;
    const { suits } = this;
    this.end();
    if (carried === null) return;
    this.#suppressClick = true;
    if (over === null || !suits) return;
    const to = shelves.data.at(over.group, over.slot);
    if (to) acts.open({ kind: 'transfer', fromVesselId: carried.vesselId, toVesselId: to.vesselId });
    else void this.#moveTo(carried, over);
  };

  readonly #keyed = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    this.#suppressClick = true;
    this.end();
  };

  /** Says what letting go here would do. */
  #look(): void {
    const scroller = this.#scroller();
    const { carried } = this;
    if (scroller === null || carried === null) return;
    const box = scroller.getBoundingClientRect();
    const inside = this.x >= box.left && this.x < box.right && this.y >= box.top && this.y < box.bottom;
    const layout = this.#layout();
    const found = inside ? slotAt(layout, this.x - box.left, this.y - box.top + scroller.scrollTop) : null;
    this.#over = found === null ? null : spotAt(layout, found.plank, found.column);
    const slot = this.#over === null ? undefined : shelves.data.at(this.#over.group, this.#over.slot);
    if (slot === undefined || slot?.vesselId === carried.vesselId) this.#say('', false);
    else if (slot === null) this.#say('Stand it here', true);
    else {
      const fit = transferFit(carried, slot, cellar.rules);
      this.#say(fit.words, fit.suits);
    }
  }

  #say(words: string, suits: boolean): void {
    this.words = words;
    this.suits = suits;
  }

  readonly #scrollAtEdge = (): void => {
    this.#frame = 0;
    const scroller = this.#scroller();
    if (scroller === null || this.carried === null) return;
    const box = scroller.getBoundingClientRect();
    const step = this.y < box.top + EDGE ? -EDGE_STEP : this.y > box.bottom - EDGE ? EDGE_STEP : 0;
    if (step === 0) return;
    scroller.scrollTop += step;
    this.#look();
    this.#frame = requestAnimationFrame(this.#scrollAtEdge);
  };

  async #moveTo(carried: ShelfRow, spot: Spot): Promise<void> {
    const group = shelves.data.groupAt(spot.group);
    if (group === undefined || group.positions === null) return;
    const result = await cellar.post({
      kind: 'moveVessel',
      vesselId: carried.vesselId,
      shelfId: group.key as ShelfId,
      position: spot.slot + 1,
    });
    if (result.ok) shelves.moveTo(spot);
    else shelves.announcement = 'It could not be moved there. It stands where it stood.';
  }
}
