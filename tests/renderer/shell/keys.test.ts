import { isEditable, isSingle, keys, keysOf } from '#renderer/shell/keys.svelte.ts';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

const plain = { ctrlKey: false, metaKey: false, altKey: false, shiftKey: false };

describe('keys as they are written', () => {
  it.each([
    [{ key: 'r' }, 'R'],
    [{ key: 'R', shiftKey: true }, 'R'],
    [{ key: 'k', ctrlKey: true }, 'Ctrl+K'],
    [{ key: 'Z', ctrlKey: true, shiftKey: true }, 'Ctrl+Shift+Z'],
    [{ key: 'F6', shiftKey: true }, 'Shift+F6'],
    [{ key: '?', shiftKey: true }, '?'],
    [{ key: ',', ctrlKey: true }, 'Ctrl+,'],
    [{ key: 'ArrowLeft', altKey: true }, 'Alt+ArrowLeft'],
  ])('%j', (event, written) => {
    expect(keysOf({ ...plain, ...event })).toBe(written);
  });

  it('tells a single key from a chord', () => {
    expect(isSingle('R')).toBe(true);
    expect(isSingle('?')).toBe(true);
    expect(isSingle('F1')).toBe(false);
    expect(isSingle('Ctrl+K')).toBe(false);
  });
});

describe('a key that is pressed', () => {
  let record: ReturnType<typeof vi.fn<() => void>>;
  let find: ReturnType<typeof vi.fn<() => void>>;
  let undo: ReturnType<typeof vi.fn<() => void>>;
  let stop: () => void;

  beforeEach(() => {
    document.body.innerHTML =
      '<main id="main" tabindex="-1"><button id="b"></button><input id="i"><input id="c" type="checkbox"></main><button id="out"></button>';
    [record, find, undo] = [vi.fn(), vi.fn(), vi.fn()];
    stop = keys.register({
      where: 'here',
      acts: [
        { keys: 'R', says: 'record', run: record },
        { keys: 'Ctrl+K', says: 'find', run: find },
        { keys: 'Ctrl+Z', says: 'undo', run: undo },
      ],
    });
    keys.singleKeysOn = true;
  });
  afterEach(() => {
    stop();
    document.body.innerHTML = '';
  });

  function press(id: string, init: KeyboardEventInit): KeyboardEvent {
    const event = new KeyboardEvent('keydown', { bubbles: true, cancelable: true, ...init });
    document.getElementById(id)?.addEventListener('keydown', (heard) => keys.heed(heard), { once: true });
    document.getElementById(id)?.dispatchEvent(event);
    return event;
  }

  it('acts in the place, and is taken from the page', () => {
    const event = press('b', { key: 'r' });
    expect(record).toHaveBeenCalledOnce();
    expect(event.defaultPrevented).toBe(true);
  });

  it('leaves letters to a field that is being edited', () => {
    press('i', { key: 'r' });
    expect(record).not.toHaveBeenCalled();
    press('c', { key: 'r' });
    expect(record).toHaveBeenCalledOnce();
  });

  it('leaves letters alone outside the place', () => {
    press('out', { key: 'r' });
    expect(record).not.toHaveBeenCalled();
  });

  it('heeds chords in a field, but undo of text stays with the field', () => {
    press('i', { key: 'k', ctrlKey: true });
    expect(find).toHaveBeenCalledOnce();
    press('i', { key: 'z', ctrlKey: true });
    expect(undo).not.toHaveBeenCalled();
    press('b', { key: 'z', ctrlKey: true });
    expect(undo).toHaveBeenCalledOnce();
  });

  it('does nothing by a single letter once House Rules says so', () => {
    keys.singleKeysOn = false;
    press('b', { key: 'r' });
    press('b', { key: 'k', ctrlKey: true });
    expect(record).not.toHaveBeenCalled();
    expect(find).toHaveBeenCalledOnce();
  });

  it('does nothing behind an open dialog', () => {
    document.body.insertAdjacentHTML('beforeend', '<dialog open></dialog>');
    press('b', { key: 'r' });
    press('b', { key: 'k', ctrlKey: true });
    expect(record).not.toHaveBeenCalled();
    expect(find).not.toHaveBeenCalled();
  });

  it('is left to the page while its act has nothing to act on', () => {
    const asleep = keys.register({
      where: 'there',
      acts: [{ keys: 'X', says: 'nothing', run: record, enabled: () => false }],
    });
    expect(press('b', { key: 'x' }).defaultPrevented).toBe(false);
    asleep();
  });

  it('is forgotten with its place', () => {
    stop();
    press('b', { key: 'r' });
    expect(record).not.toHaveBeenCalled();
  });
});

describe('what counts as being edited', () => {
  it('is a field, an area, a choice; not a button or a tick', () => {
    document.body.innerHTML =
      '<input><textarea></textarea><select></select><button></button><input type="radio">';
    const [input, area, select, button, radio] = document.body.children;
    expect([input, area, select].every((element) => isEditable(element ?? null))).toBe(true);
    expect([button, radio].some((element) => isEditable(element ?? null))).toBe(false);
  });
});
