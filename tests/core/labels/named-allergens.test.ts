import { describe, expect, it } from 'vitest';
import { namedAllergens } from '#core/labels/named-allergens.ts';

/**
 * The groups and their order: Regulation (EU) No 1169/2011, Annex II (seen in a university's restatement; S56b of the
 * reference). The words that name them are common practice, no source.
 */
describe('allergens that names of ingredients tell of', () => {
  it.each([
    ['spelt', 'wheat (gluten)'],
    ['Rye bread crust', 'rye (gluten)'],
    ['pearl barley', 'barley (gluten)'],
    ['malt extract', 'malt (gluten)'],
    ['rolled oats', 'oats (gluten)'],
    ['salted shrimps', 'crustaceans'],
    ['egg white', 'eggs'],
    ['anchovies', 'fish'],
    ['isinglass', 'fish'],
    ['peanut butter', 'peanuts'],
    ['soya sauce', 'soybeans'],
    ['whole milk', 'milk'],
    ['whey', 'milk'],
    ['green walnuts', 'walnuts'],
    ['celeriac', 'celery'],
    ['yellow mustard seed', 'mustard'],
    ['sésame', 'sesame'],
    ['potassium metabisulphite', 'sulfites'],
    ['Campden', 'sulfites'],
    ['lupin flour', 'lupin'],
    ['oysters', 'molluscs'],
  ])('%s: %s', (name, allergen) => {
    expect(namedAllergens([name])).toEqual([allergen]);
  });

  it.each([
    ...[
      'crab apples',
      'eggplant',
      'coconut milk',
      'milk thistle',
      'cream of tartar',
      'cocoa butter',
      'butternut',
    ],
    ...[
      'pine nuts',
      'nutmeg',
      'buckwheat',
      'oyster mushrooms',
      'butter beans',
      'pineapple',
      'black tea',
      'malty',
    ],
  ])('of %s nothing is told', (name) => {
    expect(namedAllergens([name])).toEqual([]);
  });

  it('are named once, in the order of the Annex, the nut before nuts at large', () => {
    expect(namedAllergens(['mustard', 'celery', 'walnuts', 'mixed nuts', 'Mustard seed', 'wheat'])).toEqual([
      ...['wheat (gluten)', 'walnuts', 'celery', 'mustard'],
    ]);
    expect(namedAllergens(['mixed nuts'])).toEqual(['nuts']);
    expect(namedAllergens([])).toEqual([]);
  });
});
