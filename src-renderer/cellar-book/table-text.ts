/**
 * A table as CSV (RFC 4180: CRLF between lines, quotes doubled). A text that a spreadsheet would run as a formula,
 * beginning with `=`, `+`, `-`, `@` (also after blanks or full width), a tab or a return, gets an apostrophe before it; plain numbers are left alone.
 */
export function csvOf(lines: readonly (readonly string[])[]): string {
  return lines.map((line) => `${line.map(cell).join(',')}\r\n`).join('');
}

const PLAIN_NUMBER = /^-?\d+(?:\.\d+)?$/u;
const RUNS_AS_FORMULA = /^(?:\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r])/u;

function cell(text: string): string {
  const tame = RUNS_AS_FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/u.test(tame) ? `"${tame.replaceAll('"', '""')}"` : tame;
}
