import type { Acid, QuantityKind, SaltBasis } from './understood.ts';

/** What stands after a number, taken apart: the unit, and what the unit is of. */
export interface Qualifiers {
  readonly unitText: string;
  readonly acid: Acid | null;
  readonly saltBasis: SaltBasis | null;
}

const LEADING_NAMES: Readonly<Record<QuantityKind, RegExp>> = {
  gravity: /^(?:sg|gravity)\b ?[:=]? ?/iu,
  acidity: /^(?:ta|acidity|acid)\b ?[:=]? ?/iu,
  pH: /^ph(?![a-z]) ?[:=]? ?/iu,
  volume: /^volume\b ?[:=]? ?/iu,
  temperature: /^(?:temperature|temp)\b ?[:=]? ?/iu,
  mass: /^(?:mass|weight)\b ?[:=]? ?/iu,
  freeSulfite: /^(?:free )?so2\b ?[:=]? ?/iu,
  alcohol: /^(?:abv|alcohol)\b ?[:=]? ?/iu,
  salt: /^salt\b ?[:=]? ?/iu,
};

/** `pH 3.4` and `SG 1.048` name their kind before the number; the name is taken off. */
export function withoutLeadingName(kind: QuantityKind, plain: string): string {
  return plain.replace(LEADING_NAMES[kind], '').trim();
}

const ACID = /(?: ?as)? ?(acetic|lactic|malic|tartaric|citric|sulfuric|sulphuric)(?: acid)?$/iu;
const ACID_NAMES: Readonly<Record<string, Acid>> = {
  acetic: 'acetic',
  lactic: 'lactic',
  malic: 'malic',
  tartaric: 'tartaric',
  citric: 'citric',
  sulfuric: 'sulfuric',
  sulphuric: 'sulfuric',
};

const SALT_BASES: readonly (readonly [RegExp, SaltBasis])[] = [
  [/ ?(?:of )?(?:the )?(?:total|whole)$/iu, 'total'],
  [/ ?(?:of|in) (?:the )?(?:water|brine)$/iu, 'water'],
  [/ ?(?:of )?(?:the )?(?:vegetables|vegetable|veg|cabbage)$/iu, 'vegetables'],
];

/** Parts `% as tartaric` into the unit and the acid, and `% of total` into the unit and the salt's basis. */
export function qualifiersOf(kind: QuantityKind, rest: string): Qualifiers {
  if (kind === 'acidity') {
    const acid = ACID.exec(rest);
    const bare = (acid ? rest.slice(0, acid.index) : rest).replace(/ acid$/iu, '').trim();
    return {
      unitText: bare,
      acid: acid ? (ACID_NAMES[(acid[1] ?? '').toLowerCase()] ?? null) : null,
      saltBasis: null,
    };
  }
  if (kind === 'salt') {
    const bare = rest.replace(/ ?\bsalt\b/iu, '');
    for (const [pattern, basis] of SALT_BASES) {
      const found = pattern.exec(bare);
      if (found) return { unitText: bare.slice(0, found.index).trim(), acid: null, saltBasis: basis };
    }
    return { unitText: bare.trim(), acid: null, saltBasis: null };
  }
  return { unitText: rest, acid: null, saltBasis: null };
}
