/**
 * Where something that is taken out is proposed to lie: in the folder of the cellar, with the day in its name.
 *
 * @param day as `2026-11-25`
 */
export function outPathFor(cellarFile: string, what: string, day: string): string {
  const cut = Math.max(cellarFile.lastIndexOf('/'), cellarFile.lastIndexOf('\\'));
  return `${cellarFile.slice(0, cut + 1)}${outNameFor(what, day)}`;
}

function outNameFor(what: string, day: string): string {
  switch (what) {
    case 'tables':
      return `cellar tables ${day}`;
    case 'book':
      return `cellar book ${day}.json`;
    case 'bookSchema':
      return 'cellar-book.schema.json';
    default:
      return `${what} ${day}.csv`;
  }
}
