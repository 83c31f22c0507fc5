/** Lower case without accents, so that case and marks never hide a name (NFKD, Unicode Annex 15). */
export function foldForSearch(text: string): string {
  return isPlain(text) ? text.toLowerCase() : text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
}

/** A pattern for LIKE with `\` as its escape, matching the text anywhere. */
export function likeAnywhere(text: string): string {
  return `%${foldForSearch(text).replace(/[\\%_]/g, (mark) => `\\${mark}`)}%`;
}

/** ASCII alone: most of what is written, and nothing in it carries a mark. */
function isPlain(text: string): boolean {
  return /^[\u0000-\u007f]*$/u.test(text);
}
