/** What a scanned label begins with, so that the one field knows a label from a search. */
export const CODE_PREFIX = 'UC:';

/** What a label's id names. Numbers of vessels, codes of batches and lines of the book are given once and never again. */
export type LabelTarget =
  | { readonly kind: 'vessel'; readonly number: number }
  | { readonly kind: 'batch'; readonly code: string }
  /** A bottling: the code of its batch and the line of the book that filled the bottles. */
  | { readonly kind: 'lot'; readonly code: string; readonly sequence: number };

/** The id as it prints under the code and as a person types it: `V-7`, `AV-26-003`, `AV-26-003/57`. */
export function labelId(target: LabelTarget): string {
  switch (target.kind) {
    case 'vessel':
      return `V-${target.number}`;
    case 'batch':
      return target.code;
    case 'lot':
      return `${target.code}/${target.sequence}`;
  }
}

/** What the square code holds: the id and nothing else, in capitals. No address, no link, nothing personal. */
export function codeText(id: string): string {
  return `${CODE_PREFIX}${id.toUpperCase()}`;
}

/**
 * What a typed or scanned line names, with or without `UC:`, whatever its case; null for what cannot be an id. A line that
 * only may be one, such as a word, comes back as the code of a batch: whether there is one the cellar knows.
 */
export function readLabelId(line: string): LabelTarget | null {
  const id = line
    .trim()
    .replace(/^uc:\s*/iu, '')
    .trim()
    .toUpperCase();
  const vessel = /^V-(\d{1,9})$/u.exec(id);
  if (vessel !== null) return { kind: 'vessel', number: Number(vessel[1]) };
  const lot = /^(\S.*?)\/(\d{1,15})$/u.exec(id);
  if (lot !== null) return { kind: 'lot', code: lot[1] ?? '', sequence: Number(lot[2]) };
  return id === '' ? null : { kind: 'batch', code: id };
}

/** The 45 characters of the alphanumeric mode (ISO/IEC 18004, table of alphanumeric values). */
const ALPHANUMERIC = /^[0-9A-Z $%*+./:-]*$/u;

/** True when the code can hold the text at two characters in eleven bits. */
export function isAlphanumeric(text: string): boolean {
  return ALPHANUMERIC.test(text);
}

/** Alphanumeric characters a code holds at error correction level Q (ISO/IEC 18004, capacities by version). */
export const Q_CAPACITY: Readonly<Record<1 | 2 | 3, number>> = { 1: 16, 2: 29, 3: 47 };

/** Light modules that stay free on each side of the code (ISO/IEC 18004). */
export const QUIET_MODULES = 4;
