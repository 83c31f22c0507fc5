import { cellar } from '../cellar/cellar-state.svelte.ts';
import { keys } from '../shell/keys.svelte.ts';
import { transferFit } from '../words/fit-words.ts';
import { vesselTitle } from '../words/vessel-words.ts';
import type { ShelfLayout } from './shelf-layout.ts';
import { firstSpot, moveFrom, type Move, type Spot } from './shelf-moves.ts';
import { endTransfer, openSpot } from './shelf-press.ts';
import { shelves } from './shelves-state.svelte.ts';
import { nextNamed, TypeAhead } from './type-ahead.ts';

const MOVES: Readonly<Record<string, Move>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  Home: 'rowStart',
  End: 'rowEnd',
  PageUp: 'pageUp',
  PageDown: 'pageDown',
};

const typeAhead = new TypeAhead();

/** A press, or focus gone elsewhere, ends the word: the next letter is not a part of it. */
export function endTyping(): void {
  typeAhead.end();
}

/** Does what a key means on the shelves; what it does not mean here is left to the page. */
export function heedShelfKey(event: KeyboardEvent, layout: ShelfLayout, pageHeight: number): void {
  if (event.altKey || event.isComposing) return;
  const control = event.ctrlKey || event.metaKey;
  const cursor = shelves.cursor ?? firstSpot(layout);
  if (cursor === null) return;
  const move = MOVES[event.key];
  if (move !== undefined) {
    typeAhead.end();
    const whole = control && move === 'rowStart' ? 'first' : control && move === 'rowEnd' ? 'last' : move;
    shelves.moveTo(moveFrom(layout, cursor, whole, pageHeight), event.shiftKey);
    event.preventDefault();
  } else if (control && event.key.toLowerCase() === 'a') {
    shelves.selectGroup(cursor.group);
    event.preventDefault();
  } else if (control) return;
  else if (event.key === 'Enter') {
    openSpot(cursor);
    event.preventDefault();
  } else if (event.key === 'Tab') tabToSuitable(event, cursor);
  else if (event.key === 'Escape') clearOne(event);
  else if (event.key === ' ' && !typeAhead.isTyping(event.timeStamp)) {
    toggleAt(cursor);
    event.preventDefault();
  } else typed(event, cursor);
}

function toggleAt(cursor: Spot): void {
  const row = shelves.data.at(cursor.group, cursor.slot);
  if (shelves.transferFrom !== null || !row) openSpot(cursor);
  else shelves.toggle(row.vesselId);
}

/** While a receiver is being chosen, Tab goes over those that cannot take anything. */
function tabToSuitable(event: KeyboardEvent, cursor: Spot): void {
  const from = shelves.transferFrom;
  if (from === null) return;
  const suitable = [...shelves.data.rows()].filter(({ row }) => transferFit(from, row, cellar.rules).suits);
  const isBefore = (a: Spot, b: Spot): boolean =>
    a.group < b.group || (a.group === b.group && a.slot < b.slot);
  const next = event.shiftKey
    ? suitable.findLast(({ spot }) => isBefore(spot, cursor))
    : suitable.find(({ spot }) => isBefore(cursor, spot));
  if (next === undefined) return;
  shelves.moveTo(next.spot);
  event.preventDefault();
}

/** Esc puts aside one thing at a time: the transfer, the selection, the filter. */
function clearOne(event: KeyboardEvent): void {
  if (shelves.transferFrom !== null) endTransfer();
  else if (shelves.selected.size > 0) shelves.clearSelection();
  else if (shelves.filter.size > 0) shelves.clearFilter();
  else return;
  event.preventDefault();
}

function typed(event: KeyboardEvent, cursor: Spot): void {
  if ([...event.key].length !== 1) return;
  const goesOn = typeAhead.isTyping(event.timeStamp);
  if (!goesOn && (!/[\p{L}\p{N}]/u.test(event.key) || isTaken(event.key))) return;
  event.preventDefault();
  const named = [...shelves.data.rows()];
  const at = named.findIndex(({ spot }) => spot.group === cursor.group && spot.slot === cursor.slot);
  const found = nextNamed(
    named,
    ({ row }) => vesselTitle(row),
    typeAhead.add(event.key, event.timeStamp),
    at,
  );
  if (found !== null) shelves.moveTo(found.spot);
}

/** A key that does something of its own here begins no word. */
function isTaken(key: string): boolean {
  if (!keys.singleKeysOn) return false;
  return keys.groups.some((group) => group.acts.some((act) => act.keys.toUpperCase() === key.toUpperCase()));
}
