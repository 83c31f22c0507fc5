import { sayKeys } from '#renderer/ui/say-keys.ts';
import { describe, expect, it } from 'vitest';

describe('keys as the keyboard names them', () => {
  it.each([
    ['Ctrl+K', 'Ctrl K', '⌘K'],
    ['Ctrl+Shift+Z', 'Ctrl Shift Z', '⌘⇧Z'],
    ['Alt+ArrowLeft', 'Alt ←', '⌥←'],
    ['R', 'R', 'R'],
    ['F1', 'F1', 'F1'],
  ])('%s', (keys, elsewhere, onMac) => {
    expect(sayKeys(keys, false)).toBe(elsewhere);
    expect(sayKeys(keys, true)).toBe(onMac);
  });
});
