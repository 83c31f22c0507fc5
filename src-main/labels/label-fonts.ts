import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as fontkit from 'fontkit';
import type { Font } from 'fontkit';
import type { LabelFont } from '#core/labels/drawing.ts';
import { unpackWoff } from './unpack-woff.ts';

/** One file of a font: each holds the letters of some scripts only, so a line may need several. */
export interface FontFile {
  /** Names it within a PDF: `archivo-latin-700`. */
  readonly key: string;
  readonly family: LabelFont;
  readonly bold: boolean;
  readonly font: Font;
  readonly bytes: Buffer;
}

// Not called `require`: the bundler puts one of its own into the same file.
const packages = createRequire(import.meta.url);

const EMOJI_FILES = Array.from({ length: 11 }, (_, index) => String(index));

/** The package of each family and its pieces, those that are needed most first. All are static and under the SIL OFL. */
const PIECES: Readonly<Record<LabelFont, { readonly name: string; readonly pieces: readonly string[] }>> = {
  archivo: { name: 'archivo', pieces: ['latin', 'latin-ext', 'vietnamese'] },
  narrow: { name: 'archivo-narrow', pieces: ['latin', 'latin-ext', 'vietnamese'] },
  arabic: { name: 'noto-sans-arabic', pieces: ['arabic', 'symbols', 'math'] },
  hebrew: { name: 'noto-sans-hebrew', pieces: ['hebrew', 'greek-ext', 'cyrillic-ext'] },
  emoji: { name: 'noto-emoji', pieces: EMOJI_FILES },
};

const opened = new Map<string, FontFile>();

/** The files of a family in a weight, opened when they are first asked for and kept from then on. */
export function* fontFiles(family: LabelFont, bold: boolean): Generator<FontFile> {
  const { name, pieces } = PIECES[family];
  const weight = bold ? 700 : 400;
  for (const piece of pieces) {
    const key = `${name}-${piece}-${weight}`;
    const known = opened.get(key);
    if (known !== undefined) {
      yield known;
      continue;
    }
    const bytes = unpackWoff(readFileSync(packages.resolve(`@fontsource/${name}/files/${key}-normal.woff`)));
    const file = { key, family, bold, bytes, font: fontkit.create(bytes) as Font };
    opened.set(key, file);
    yield file;
  }
}

/** A file that was opened by its key: what a run was set from is known when it is written. */
export function openedFile(key: string): FontFile {
  const file = opened.get(key);
  if (file === undefined) throw new Error(`font file ${key} has not been opened`);
  return file;
}
