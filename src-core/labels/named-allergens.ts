/**
 * What some people must not have, as far as the names of ingredients tell: the fourteen groups of Regulation (EU) No 1169/2011,
 * Annex II. Which words name a group is our own list, in English alone; it names what it finds and never says that there is
 * nothing else.
 */
export type AllergenGroup =
  | 'gluten'
  | 'crustaceans'
  | 'eggs'
  | 'fish'
  | 'peanuts'
  | 'soybeans'
  | 'milk'
  | 'nuts'
  | 'celery'
  | 'mustard'
  | 'sesame'
  | 'sulfites'
  | 'lupin'
  | 'molluscs';

interface Naming {
  readonly group: AllergenGroup;
  /** How it prints; the Annex wants the cereal and the nut named. */
  readonly prints: string;
  /** Words as a keeper writes them, without accents. */
  readonly words: RegExp;
}

const cereal = (prints: string, words: string): Naming => ({
  ...{ group: 'gluten', prints: `${prints} (gluten)`, words: whole(words) },
});
const nut = (prints: string, words: string): Naming => ({ group: 'nuts', prints, words: whole(words) });
const naming = (group: AllergenGroup, words: string, prints: string = group): Naming => ({
  ...{ group, prints, words: whole(words) },
});

/** The pattern as whole words: `egg` is not in `eggplant`. */
function whole(words: string): RegExp {
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${words})(?![\\p{L}\\p{N}])`, 'iu');
}

const NOT_OF_MILK = '(?<!\\b(?:coconut|oat|soya?|almond|rice|nut|hemp|cashew|hazelnut|pea)[ -])';

/** In the order of the Annex. */
const NAMINGS: readonly Naming[] = [
  cereal('wheat', 'wheats?|spelt|durum|khorasan|emmer|einkorn|semolina|bulgur|couscous'),
  cereal('rye', 'rye'),
  cereal('barley', 'barley'),
  cereal('malt', 'malts?|malted'),
  cereal('oats', 'oats?|oatmeal'),
  naming(
    'crustaceans',
    'crabs?(?![ -]?apples?)|crabmeat|lobsters?|shrimps?|prawns?|crayfish|krill|crustaceans?',
  ),
  naming('eggs', 'eggs?(?![ -]?plants?)|egg[ -]whites?|albumen'),
  naming('fish', 'fish|anchov(?:y|ies)|tuna|salmon|herrings?|cod|mackerel|sardines?|isinglass|bonito'),
  naming('peanuts', 'peanuts?|groundnuts?'),
  naming('soybeans', 'soy|soya|soy[ -]?beans?|soya[ -]?beans?|tofu|miso|tamari|edamame'),
  naming(
    'milk',
    [
      `${NOT_OF_MILK}milk(?![ -]?(?:thistles?|weed|cap))`,
      '(?<!\\bcoconut )cream(?! of tartar| tartar)',
      '(?<!\\b(?:cocoa|peanut|nut|almond|apple|shea) )butter(?! beans?)',
      'buttermilk|whey|yogh?urts?|cheeses?|curds?|casein|lactose|milk kefir',
    ].join('|'),
  ),
  nut('almonds', 'almonds?'),
  nut('hazelnuts', 'hazelnuts?|cobnuts?|filberts?'),
  nut('walnuts', 'walnuts?'),
  nut('cashews', 'cashews?'),
  nut('pecans', 'pecans?'),
  nut('Brazil nuts', 'brazil nuts?'),
  nut('pistachios', 'pistachios?'),
  nut('macadamias', 'macadamias?|queensland nuts?'),
  nut('nuts', 'mixed nuts|nuts'),
  naming('celery', 'celery|celeriac'),
  naming('mustard', 'mustards?'),
  naming('sesame', 'sesame|tahini'),
  naming(
    'sulfites',
    'sul(?:f|ph)ites?|(?:meta)?bisul(?:f|ph)ites?|sul(?:f|ph)ur dioxide|campden(?: tablets?)?',
  ),
  naming('lupin', 'lupins?|lupines?'),
  naming(
    'molluscs',
    'mussels?|oysters?(?![ -]?mushrooms?)|clams?|squids?|scallops?|snails?|octopus|cockles?|whelks?|molluscs?|mollusks?',
  ),
];

/** Names that have one of those words in them and are something else: `pine nuts`, `water chestnuts` are no nuts of the Annex. */
const SOMETHING_ELSE = whole('(?:pine|tiger|kola|cola|betel) nuts?|nut grass');

/**
 * The allergens that the names of the ingredients tell of, as they print, in the order of the Annex. An empty answer says nothing
 * of what is in it: many names tell nothing, and not everything that went in is on record.
 */
export function namedAllergens(ingredients: readonly string[]): readonly string[] {
  const names = ingredients.map((name) =>
    name.normalize('NFD').replace(/\p{M}/gu, '').replace(new RegExp(SOMETHING_ELSE, 'giu'), ' '),
  );
  const found = NAMINGS.filter(({ words }) => names.some((name) => words.test(name)));
  // Which nut it is tells more than that it is one.
  const named = found.filter(
    ({ prints }) =>
      prints !== 'nuts' || found.every((other) => other.group !== 'nuts' || other.prints === 'nuts'),
  );
  return named.map(({ prints }) => prints);
}
