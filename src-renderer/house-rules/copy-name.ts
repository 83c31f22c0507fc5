/**
 * Where a copy is proposed: beside the cellar, with the day in its name, such as `cellar copy 2026-11-25.undercroft`.
 *
 * @param day as `2026-11-25`
 */
export function copyNameFor(file: string, day: string): string {
  const cut = /^(.*?)(\.[^./\\]+)?$/su.exec(file);
  const [, stem = file, ending = ''] = cut ?? [];
  return `${stem} copy ${day}${ending}`;
}

/** A size a person can read: `840 kB`, `12.4 MB`. */
export function saySize(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}
