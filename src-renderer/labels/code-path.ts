import type { CodeSquare } from '#core/labels/drawing.ts';

/** The dark modules of a code as one path: runs of a row are one rectangle, so that no hairlines show between them. */
export function codePath({ rows, xMm, yMm, moduleMm }: CodeSquare): string {
  return rows
    .flatMap((row, y) =>
      [...row.matchAll(/1+/gu)].map(({ 0: run, index: x }) => {
        const width = run.length * moduleMm;
        return `M${at(xMm + x * moduleMm)} ${at(yMm + y * moduleMm)}h${at(width)}v${at(moduleMm)}h${at(-width)}z`;
      }),
    )
    .join('');
}

const at = (mm: number): string => String(Number(mm.toFixed(4)));
