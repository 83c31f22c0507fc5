import { isoDayOf } from '../words/time-words.ts';

/** The rules for printed pages: margins in mm, and at the foot which leaf, printed when, and which page. */
export function paperFootRules(code: string, nowMs: number): string {
  const words = quoted(`${code} \u00B7 printed ${isoDayOf(nowMs)}`);
  const type = 'font: 9pt sans-serif; color: #000;';
  return `@page { size: auto; margin: 14mm 14mm 17mm; @bottom-left { content: ${words}; ${type} } @bottom-right { content: "page " counter(page) " of " counter(pages); ${type} } }`;
}

/** Holds the foot of printed pages in the page for as long as a leaf is in sight; returns what takes it away. */
export function layPaperFoot(code: string, nowMs: number): () => void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(paperFootRules(code, nowMs));
  document.adoptedStyleSheets.push(sheet);
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== sheet);
  };
}

/** A text as a CSS string that can hold nothing but that text: whatever is not a plain letter or digit is escaped. */
export function quoted(text: string): string {
  const escaped = [...text].map((sign) =>
    /[A-Za-z0-9 .-]/u.test(sign) ? sign : `\\${(sign.codePointAt(0) ?? 0xfffd).toString(16)} `,
  );
  return `"${escaped.join('')}"`;
}
