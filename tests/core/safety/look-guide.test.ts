import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lookGuide, type Sight } from '#core/safety/look-guide.ts';
import { RULES } from '#core/safety/rule-book.ts';

const unseen: Sight = { surface: null, feel: null, colour: null, shape: null, where: null };
const film: Sight = {
  surface: 'flat',
  feel: 'wet',
  colour: 'whiteOrCream',
  shape: 'wrinkledFilm',
  where: 'onLiquid',
};

describe('the look guide', () => {
  it.each([
    [{ ...unseen, surface: 'fuzzy' }, 'discard', 'fuzzyOrColoured'],
    [{ ...film, colour: 'blueGreenBlackPinkOrange' }, 'discard', 'fuzzyOrColoured'],
    [{ ...film, shape: 'raisedRoundSpots', feel: 'dry' }, 'discard', 'fuzzyOrColoured'],
    [{ ...unseen, shape: 'raisedRoundSpots' }, 'discard', 'fuzzyOrColoured'],
    [film, 'skim', 'flatFilm'],
    [{ ...film, shape: 'smoothDisc', colour: 'clearOrTan' }, 'leave', 'jellyDisc'],
    [{ ...unseen, surface: 'bare' }, 'leave', 'none'],
    [unseen, 'hold', 'cannotTell'],
    [{ ...film, feel: 'dry' }, 'hold', 'cannotTell'],
    [{ ...film, where: null }, 'hold', 'cannotTell'],
  ] as const)('%j: %s', (sight, act, growth) => {
    expect(lookGuide(sight, 'vinegar')).toMatchObject({ act, growth });
  });
  it('leaves a disc only where discs grow', () => {
    const disc = { ...film, shape: 'smoothDisc' } as const;
    expect(lookGuide(disc, 'kombucha').act).toBe('leave');
    expect(lookGuide(disc, 'cider').act).toBe('skim');
    expect(lookGuide(disc, null).act).toBe('skim');
  });
  it('says which answer would decide', () => {
    expect(lookGuide(unseen, 'vinegar').askNext).toBe('surface');
    expect(lookGuide({ ...film, feel: null }, 'vinegar').askNext).toBe('feel');
  });
  it('never leaves or skims what shows one sign of mould, or is not fully told', () => {
    const sight: fc.Arbitrary<Sight> = fc.record({
      surface: fc.constantFrom('bare', 'flat', 'fuzzy', null),
      feel: fc.constantFrom('wet', 'dry', null),
      colour: fc.constantFrom('whiteOrCream', 'clearOrTan', 'blueGreenBlackPinkOrange', null),
      shape: fc.constantFrom('smoothDisc', 'wrinkledFilm', 'raisedRoundSpots', null),
      where: fc.constantFrom('onLiquid', 'onSolidsAboveBrine', 'onGlass', null),
    });
    fc.assert(
      fc.property(sight, fc.constantFrom('vinegar' as const, 'cider' as const, null), (seen, product) => {
        const { act, growth, ruleIds } = lookGuide(seen, product);
        if (seen.surface === 'fuzzy' || seen.colour === 'blueGreenBlackPinkOrange')
          expect(act).toBe('discard');
        if ((act === 'leave' || act === 'skim') && growth !== 'none') {
          expect(Object.values(seen)).not.toContain(null);
          expect(seen.feel).toBe('wet');
        }
        for (const id of ruleIds) expect(RULES.some((rule) => rule.id === id)).toBe(true);
      }),
    );
  });
});
