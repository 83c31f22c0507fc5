import { graphemes } from '#core/labels/fit-text.ts';
import type { SetLine, TextStyle, Typesetter } from '#core/labels/typesetter.ts';

const kept = new Map<string, SetLine>();

/** Sets lines without a font. Every character is half an em wide, narrow ones 0.38, bold ones a tenth more; CJK letters are in no font; Hebrew ones turn a line. */
export const fakeTypesetter: Typesetter = {
  line(text, style) {
    const key = JSON.stringify([text, style]);
    const line = kept.get(key) ?? setLine(text, style);
    kept.set(key, line);
    return line;
  },
};

function setLine(text: string, { narrow, bold }: TextStyle): SetLine {
  const each = (narrow ? 0.38 : 0.5) * (bold ? 1.1 : 1);
  const letters = graphemes(text);
  const missing = letters.filter((letter) => /\p{Script=Han}/u.test(letter));
  const widthEm = letters.length * each;
  return {
    ...{ widthEm, boxes: [], missing, rightToLeft: /^\p{Script=Hebrew}/u.test(text) },
    runs: [{ text, font: narrow ? 'narrow' : 'archivo', bold, xEm: 0, widthEm, direction: 'ltr' }],
  };
}
