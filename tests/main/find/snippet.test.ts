import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { askedWords } from '#main/find/asked-words.ts';
import { foldForSearch } from '#main/find/fold-for-search.ts';
import { snippetOf } from '#main/find/snippet.ts';

const marked = (written: string, asked: string): string[] => {
  const { text, marks } = snippetOf(written, askedWords(asked).words);
  return marks.map(([from, to]) => text.slice(from, to));
};

describe('the piece around what was found', () => {
  it('is cut at spaces, with dots where it goes on', () => {
    const long = `${'One two three four five six seven. '.repeat(6)}Here the damson is named. ${'And so on and on. '.repeat(9)}`;
    const { text } = snippetOf(long, ['damson']);
    expect(text).toMatch(/^….*damson is named.*…$/u);
    expect(text.length).toBeLessThanOrEqual(122);
    expect(marked(long, 'damson')).toEqual(['damson']);
  });

  it('marks every word as it was written', () => {
    expect(marked('Crème, CRÈME and cream', 'creme')).toEqual(['Crème', 'CRÈME']);
    expect(marked('ﬁg and fig', 'fig')).toEqual(['ﬁg', 'fig']);
  });

  it('never marks what folds to something else, and never overlaps', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 300 }),
        fc.string({ maxLength: 4 }),
        (written, word) => {
          const { words } = askedWords(word);
          const { text, marks } = snippetOf(written, words);
          let end = 0;
          for (const [from, to] of marks) {
            expect(from).toBeGreaterThanOrEqual(end);
            expect(words.some((one) => foldForSearch(text.slice(from, to)).includes(one))).toBe(true);
            end = to;
          }
          expect(end).toBeLessThanOrEqual(text.length);
        },
      ),
    );
  });
});

describe('what is asked', () => {
  it('is words and quoted phrases, folded', () => {
    expect(askedWords('  Crème "de la" tête ')).toEqual({
      ...{ words: ['creme', 'de la', 'tete'], match: '"creme" AND "de la" AND "tete"', shortLikes: [] },
    });
    expect(askedWords('an "open')).toMatchObject({ words: ['an', 'open'], match: '"open"' });
    expect(askedWords('""')).toMatchObject({ words: [], match: null });
  });
});
