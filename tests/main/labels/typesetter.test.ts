import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isolated } from '#core/labels/typesetter.ts';
import { fontFiles } from '#main/labels/label-fonts.ts';
import { PLAIN as PLAIN_LETTERS } from '#main/labels/shape-text.ts';
import { openTypesetter } from '#main/labels/typesetter.ts';

const type = openTypesetter();
const FAMILIES = [
  ['archivo', false],
  ['archivo', true],
  ['narrow', false],
  ['narrow', true],
] as const;
const PLAIN = { narrow: false, bold: false };
const shown = (text: string) =>
  type.line(text, PLAIN).runs.map(({ text: said, font, direction }) => [said, font, direction]);

describe('setting a line', () => {
  it('of Latin letters, accents and all, in one font', () => {
    for (const text of [
      'Apple vinegar 3',
      'Żółć Åkerö Čačanská',
      'Nước mắm giấm chuối',
      'œuvre “ok” – 5 %…',
    ]) {
      expect(shown(text)).toEqual([[text, 'archivo', 'ltr']]);
      expect(type.line(text, PLAIN).missing).toEqual([]);
    }
  });

  it('is narrower when it is set narrow, and wider when bold', () => {
    const plain = type.line('Kingston black', PLAIN).widthEm;
    expect(type.line('Kingston black', { narrow: true, bold: false }).widthEm).toBeLessThan(0.9 * plain);
    expect(type.line('Kingston black', { narrow: false, bold: true }).widthEm).toBeGreaterThan(plain);
  });

  it('that reads from right to left puts its first word at the right, and numbers as they are', () => {
    const { runs, rightToLeft } = type.line('خل 2026 التفاح', PLAIN);
    expect(rightToLeft).toBe(true);
    const places = runs.map(({ text, xEm }) => [text.trim(), xEm] as const).sort((a, b) => b[1] - a[1]);
    expect(places.map(([text]) => text).filter((text) => text !== '')).toEqual(['خل', '2026', 'التفاح']);
  });

  it('of mixed scripts keeps the order of each (Unicode Annex 9)', () => {
    const { runs, rightToLeft } = type.line('Cider של סבתא old', PLAIN);
    expect(rightToLeft).toBe(false);
    expect(runs.map(({ text, font, direction }) => [text.trim(), font, direction])).toEqual([
      ['Cider', 'archivo', 'ltr'],
      ['של סבתא', 'hebrew', 'rtl'],
      ['old', 'archivo', 'ltr'],
    ]);
  });

  it('lets an isolated name not turn what stands around it', () => {
    const runs = shown(`vinegar of ${isolated('خل')}, V-7 at A2`).map(([text]) => text);
    expect(runs).toEqual(['vinegar of ', 'خل', ', V-7 at A2']);
  });

  it('joins Arabic letters: a word is narrower than its letters apart', () => {
    const word = type.line('بيت', PLAIN).widthEm;
    const apart = ['ب', 'ي', 'ت'].reduce((sum, letter) => sum + type.line(letter, PLAIN).widthEm, 0);
    expect(word).toBeLessThan(0.9 * apart);
  });

  it.each(['👨‍👩‍👧‍👦', '🏴󠁧󠁢󠁳󠁣󠁴󠁿', '🇫🇷', '👍🏽', '❤️', '🧑‍🍳', '1️⃣', '🫙'])('sets %s as one sign', (emoji) => {
    const { runs, missing, widthEm } = type.line(emoji, PLAIN);
    expect(missing).toEqual([]);
    expect(runs.map(({ font }) => font)).toEqual(['emoji']);
    expect(widthEm).toBeCloseTo(type.line('🍎', PLAIN).widthEm);
  });

  it('tells each character that no font has, and leaves room for its box', () => {
    const { missing, boxes, widthEm } = type.line('梅 ok 酢', PLAIN);
    expect(missing).toEqual(['梅', '酢']);
    expect(boxes).toHaveLength(2);
    expect(widthEm).toBeGreaterThan(type.line(' ok ', PLAIN).widthEm);
  });

  it('takes any text there is: pieces stand side by side and are as wide together as the line', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (text) => {
        const { runs, boxes, widthEm } = type.line(text, PLAIN);
        const pieces = [...runs, ...boxes].sort((a, b) => a.xEm - b.xEm);
        let at = 0;
        for (const piece of pieces) {
          expect(piece.xEm).toBeCloseTo(at, 6);
          at += piece.widthEm;
        }
        expect(widthEm).toBeCloseTo(at, 6);
      }),
    );
  });

  it.each(FAMILIES)('finds every plain letter in the first file of %s, bold %s', (family, bold) => {
    const [first] = fontFiles(family, bold);
    for (let code = 0x20; code <= 0xff; code += 1) {
      if (!PLAIN_LETTERS.test(String.fromCodePoint(code))) continue;
      expect(first?.font.hasGlyphForCodePoint(code), code.toString(16)).toBe(true);
    }
  });
});
