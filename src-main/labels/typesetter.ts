import bidiFactory from 'bidi-js';
import type { SetLine, SetRun, TextStyle, Typesetter } from '#core/labels/typesetter.ts';
import { keptLately } from './kept-lately.ts';
import { coverByFamily, stretchWidth } from './shape-text.ts';

const bidi = bidiFactory();
const LINES_KEPT_MOST = 4000;
/** The box drawn for a character that no font has is so wide, em. */
const BOX_EM = 0.62;

/** Sets lines from the fonts of the program. Lines once set are kept, since labels are much alike. */
export function openTypesetter(): Typesetter {
  const kept = keptLately<SetLine>(LINES_KEPT_MOST);
  return {
    line(text, style) {
      const key = `${style.bold ? 'b' : 'r'}${style.narrow ? 'n' : 'w'}${text}`;
      const known = kept.get(key);
      if (known !== undefined) return known;
      const set = setLine(text, style);
      kept.set(key, set);
      return set;
    },
  };
}

function setLine(text: string, style: TextStyle): SetLine {
  const runs: SetRun[] = [];
  const boxes: { xEm: number; widthEm: number }[] = [];
  const missing: string[] = [];
  let xEm = 0;
  const { stretches, rightToLeft } = inVisualOrder(text);
  for (const { text: stretch, direction } of stretches) {
    const covered = coverByFamily(stretch, style);
    for (const { text: part, family } of direction === 'rtl' ? covered.reverse() : covered) {
      if (family === null) {
        missing.push(part);
        boxes.push({ xEm, widthEm: BOX_EM });
        xEm += BOX_EM;
        continue;
      }
      const widthEm = stretchWidth(part, family, style.bold, direction) / 1000;
      runs.push({ text: part, font: family, bold: style.bold, xEm, widthEm, direction });
      xEm += widthEm;
    }
  }
  return { widthEm: xEm, runs, boxes, missing, rightToLeft };
}

interface Stretch {
  readonly text: string;
  readonly direction: 'ltr' | 'rtl';
}

/** The stretches of one direction as they stand from left to right (Unicode Annex 9), each in its own reading order. */
function inVisualOrder(text: string): {
  readonly stretches: readonly Stretch[];
  readonly rightToLeft: boolean;
} {
  // Latin letters, digits and common marks alone have one direction: most lines are done here.
  if (/^[\u0020-\u024F\u1E00-\u1EFF\u2010-\u2027\u2030-\u205E]*$/u.test(text)) {
    return { stretches: [{ text, direction: 'ltr' }], rightToLeft: false };
  }
  const embedding = bidi.getEmbeddingLevels(text);
  const base = embedding.paragraphs[0]?.level ?? 0;
  const order = Array.from({ length: text.length }, (_, index) => index);
  for (const [start = 0, end = -1] of bidi.getReorderSegments(text, embedding)) {
    order.splice(start, end - start + 1, ...order.slice(start, end + 1).reverse());
  }
  const stretches: { from: number; to: number; level: number }[] = [];
  for (const index of order) {
    const level = embedding.levels[index] ?? 0;
    const last = stretches.at(-1);
    const next = level % 2 === 1 ? index === (last?.from ?? NaN) - 1 : index === (last?.to ?? NaN) + 1;
    if (last !== undefined && last.level === level && next) {
      last.from = Math.min(last.from, index);
      last.to = Math.max(last.to, index);
    } else stretches.push({ from: index, to: index, level });
  }
  return {
    rightToLeft: base % 2 === 1,
    stretches: stretches.map(({ from, to, level }) => ({
      text: text.slice(from, to + 1),
      direction: level % 2 === 1 ? 'rtl' : 'ltr',
    })),
  };
}
