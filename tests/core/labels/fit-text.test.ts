import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ELLIPSIS, fitText, graphemes } from '#core/labels/fit-text.ts';
import { POINT_MM, printable } from '#core/labels/typesetter.ts';
import { fakeTypesetter } from './fake-typesetter.ts';

const GIVE = { bold: false, sizesPt: [12, 9], linesMax: 2, mayCut: true };
/** How wide so many letters are in the fake font, mm. */
const wide = (letters: number, sizePt: number, narrow = false): number =>
  letters * (narrow ? 0.38 : 0.5) * sizePt * POINT_MM;
const fit = (text: string, roomMm: number, over: Partial<typeof GIVE> = {}) =>
  fitText(fakeTypesetter, text, [roomMm], { ...GIVE, ...over });
const said = (fitted: ReturnType<typeof fit>): string[] =>
  (fitted?.lines ?? []).map(({ set }) => set.runs.map(({ text }) => text).join(''));

describe('a text that is longer than its room', () => {
  const TEXT = 'Kingston black';

  it('stays as it is where it fits', () => {
    expect(fit(TEXT, wide(14, 12) + 0.1)).toMatchObject({ narrowed: false, madeSmaller: false, cut: false });
  });

  it('is set narrow first, then smaller, then over two lines, and cut last', () => {
    expect(fit(TEXT, wide(14, 12, true) + 0.1)).toMatchObject({ narrowed: true, madeSmaller: false });
    expect(fit(TEXT, wide(14, 9, true) + 0.1)).toMatchObject({ madeSmaller: true, cut: false });
    const two = fit(TEXT, wide(8, 12) + 0.1, { sizesPt: [12] });
    expect(said(two)).toEqual(['Kingston', 'black']);
    expect(two).toMatchObject({ cut: false, madeSmaller: false });
    const cut = fit('Kingston black of the old orchard', wide(8, 9, true) + 0.1);
    expect(cut?.cut).toBe(true);
    expect(said(cut).at(-1)).toMatch(/…$/u);
  });

  it('is given back as not fitting where it may not be cut', () => {
    expect(fit(TEXT, 3, { mayCut: false })).toBeNull();
  });

  it('of 200 characters without a space is cut within its room', () => {
    const cut = fit('x'.repeat(200), 30);
    expect(cut?.lines).toHaveLength(2);
    for (const line of cut?.lines ?? []) expect(line.widthMm).toBeLessThanOrEqual(30);
    expect(said(cut).join('').endsWith(ELLIPSIS)).toBe(true);
  });

  it('is never cut within a character as a reader counts them', () => {
    const family = '👨‍👩‍👧‍👦';
    const flag = '🏴󠁧󠁢󠁳󠁣󠁴󠁿';
    const pieces = fc.constantFrom('a', 'é', 'ệ', family, flag, '👍🏽', '1️⃣', 'ش', ' ', 'word');
    fc.assert(
      fc.property(
        fc.array(pieces, { minLength: 1, maxLength: 60 }),
        fc.integer({ min: 4, max: 60 }),
        (all, room) => {
          const text = printable(all.join(''));
          const whole = graphemes(text);
          const fitted = fit(text, room);
          if (fitted === null) throw new Error('what may be cut always fits');
          const shown = said(fitted).flatMap((line) => [...graphemes(line)]);
          for (const one of shown) expect([...whole, ELLIPSIS]).toContain(one);
          for (const line of fitted.lines) expect(line.widthMm).toBeLessThanOrEqual(Math.max(room, 4));
          if (!fitted.cut)
            expect(shown.filter((one) => one !== ' ')).toEqual(whole.filter((one) => one !== ' '));
        },
      ),
    );
  });
});

describe('a keeper’s text as it prints', () => {
  it('has no characters that steer, override or break', () => {
    expect(printable('Plum\u202Eevil\u202C wine\u0007')).toBe('Plumevil wine');
    expect(printable('a\u2066b\u2069\u200Bc\u200E\uFEFF')).toBe('abc');
    expect(printable(' two\n lines\tone ')).toBe('two lines one');
    expect(printable('<script>alert(1)</script>')).toBe('<script>alert(1)</script>');
  });

  it('keeps what joins letters and emoji, and is composed', () => {
    expect(printable('👩‍🌾')).toBe('👩‍🌾');
    expect(printable('می‌خواهم')).toBe('می‌خواهم');
    expect(printable('Vie\u0302\u0323t')).toBe('Vi\u1EC7t');
  });
});
