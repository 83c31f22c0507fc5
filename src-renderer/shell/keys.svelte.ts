import { onMac } from '../ui/say-keys.ts';

/** Something a key does. `keys` is written as `R`, `Ctrl+K`, `Ctrl+Shift+Z`, `F6`, `?`. */
export interface KeyAct {
  readonly keys: string;
  /** What it does, as the keys dialog says it. */
  readonly says: string;
  readonly run: () => void;
  /** False while it has nothing to act on; the key is then left to the page. */
  readonly enabled?: () => boolean;
}

export interface KeyGroup {
  /** Where the keys act, such as "Everywhere" or "On the shelves". */
  readonly where: string;
  readonly acts: readonly KeyAct[];
}

/**
 * The keys of the program and of the place in sight. Chords act everywhere; a single letter only while focus rests in
 * the place itself, no field is being edited and no dialog is open, and never when House Rules has switched them off.
 */
class Keys {
  groups = $state.raw<readonly KeyGroup[]>([]);
  singleKeysOn = $state(true);

  /** Adds keys for as long as a place is in sight; returns what takes them away again. */
  register(group: KeyGroup): () => void {
    this.groups = [...this.groups, group];
    return () => {
      this.groups = this.groups.filter((other) => other !== group);
    };
  }

  /** Does what the pressed key stands for. The newest registration wins. */
  heed(event: KeyboardEvent): void {
    if (event.defaultPrevented || event.isComposing) return;
    const act = this.#actFor(event);
    if (act === null) return;
    event.preventDefault();
    act.run();
  }

  #actFor(event: KeyboardEvent): KeyAct | null {
    const pressed = keysOf(event);
    if (document.querySelector('dialog[open]') !== null) return null;
    if (isSingle(pressed) && !(this.singleKeysOn && restsInPlace(event.target))) return null;
    if (isTextChord(pressed) && isEditable(event.target)) return null;
    for (const group of this.groups.toReversed()) {
      const act = group.acts.find(({ keys }) => keys.toLowerCase() === pressed.toLowerCase());
      if (act && act.enabled?.() !== false) return act;
    }
    return null;
  }
}

/** The keys of an event as they are written here; Command counts as Ctrl on a Mac. */
export function keysOf(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>,
): string {
  const control = onMac() ? event.metaKey : event.ctrlKey;
  const letter = event.key.length === 1 && /[a-z]/iu.test(event.key);
  const shift = event.shiftKey && (letter ? control || event.altKey : event.key.length > 1);
  return [
    control ? 'Ctrl' : '',
    event.altKey ? 'Alt' : '',
    shift ? 'Shift' : '',
    letter ? event.key.toUpperCase() : event.key,
  ]
    .filter((part) => part !== '')
    .join('+');
}

/** A key that types a character, and so could be spoken or struck by mistake (WCAG 2.1.4). */
export function isSingle(keys: string): boolean {
  return [...keys].length === 1;
}

/** Undo and redo of text belong to the field being edited. */
function isTextChord(keys: string): boolean {
  return keys === 'Ctrl+Z' || keys === 'Ctrl+Shift+Z';
}

/** Whether typing would go into this element. */
export function isEditable(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (
    target.isContentEditable ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
  )
    return true;
  return (
    target instanceof HTMLInputElement && !['button', 'checkbox', 'radio', 'range'].includes(target.type)
  );
}

function restsInPlace(target: EventTarget | null): boolean {
  if (isEditable(target)) return false;
  if (target === document.body || !(target instanceof Element)) return true;
  return target.closest('#main, [data-pane]') !== null;
}

export const keys = new Keys();
