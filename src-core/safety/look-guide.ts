import type { Inspection, Product } from './facts-of-uses.ts';

/** What a keeper sees on the surface, one answer at a time. Null where it was not said. */
export interface Sight {
  readonly surface: 'bare' | 'flat' | 'fuzzy' | null;
  readonly feel: 'wet' | 'dry' | null;
  readonly colour: 'whiteOrCream' | 'clearOrTan' | 'blueGreenBlackPinkOrange' | null;
  readonly shape: 'smoothDisc' | 'wrinkledFilm' | 'raisedRoundSpots' | null;
  readonly where: 'onLiquid' | 'onSolidsAboveBrine' | 'onGlass' | null;
}

export interface LookGuide {
  readonly growth: NonNullable<Inspection['growth']>;
  /** Leave it, skim and keep under, wait 48 h without tasting, or throw all of it out. */
  readonly act: 'leave' | 'skim' | 'hold' | 'discard';
  /** The rules whose sources stand behind it. */
  readonly ruleIds: readonly string[];
  /** The answer that would decide it, while it is on hold. */
  readonly askNext: keyof Sight | null;
}

/**
 * What a growth is and what to do with it, after rules MLD-01 to MLD-03. Any one sign of mould (fuzz, a raised dry spot, a
 * colour) decides for discard, whatever else was said; a film is skimmed and a smooth disc left only when nothing speaks for
 * mould and the signs are complete; everything else is held for two days. Vinegar and kombucha grow discs of their own.
 */
export function lookGuide(sight: Sight, product: Product | null): LookGuide {
  const { surface, feel, colour, shape, where } = sight;
  const mouldy =
    surface === 'fuzzy' ||
    colour === 'blueGreenBlackPinkOrange' ||
    (shape === 'raisedRoundSpots' && feel !== 'wet');
  if (mouldy) return { growth: 'fuzzyOrColoured', act: 'discard', ruleIds: ['MLD-01'], askNext: null };
  if (surface === 'bare' && colour === null && shape === null) {
    return { growth: 'none', act: 'leave', ruleIds: ['MLD-01'], askNext: null };
  }
  const missing = firstMissing({ surface, feel, colour, shape, where });
  if (missing !== null || feel === 'dry' || shape === 'raisedRoundSpots' || surface === 'bare') {
    return { growth: 'cannotTell', act: 'hold', ruleIds: ['MLD-03'], askNext: missing };
  }
  if (shape === 'wrinkledFilm') {
    return { growth: 'flatFilm', act: 'skim', ruleIds: ['MLD-02'], askNext: null };
  }
  const acetic = product === 'vinegar' || product === 'kombucha';
  return acetic
    ? { growth: 'jellyDisc', act: 'leave', ruleIds: ['MLD-02'], askNext: null }
    : { growth: 'jellyDisc', act: 'skim', ruleIds: ['MLD-02'], askNext: null };
}

function firstMissing(sight: Sight): keyof Sight | null {
  const asked: readonly (keyof Sight)[] = ['surface', 'feel', 'colour', 'shape', 'where'];
  return asked.find((name) => sight[name] === null) ?? null;
}
