/** Grams in 100 g of a juice or raw material. Typical values; real lots vary by 15 % or more. */
export interface JuiceComposition {
  readonly sugars: number;
  readonly water: number;
  readonly carbohydrate: number;
  readonly sucrose?: number;
  readonly glucose?: number;
  readonly fructose?: number;
  readonly source: string;
}

/** Composition by USDA National Nutrient Database SR Legacy, with the entry's number. */
export const JUICE_COMPOSITION = {
  apple: {
    sugars: 9.62,
    sucrose: 1.26,
    glucose: 2.63,
    fructose: 5.73,
    water: 88.24,
    carbohydrate: 11.3,
    source: 'USDA SR Legacy 09016, apple juice, unsweetened',
  },
  pineapple: {
    sugars: 9.98,
    water: 86.37,
    carbohydrate: 12.87,
    source: 'USDA SR Legacy 09273, pineapple juice, unsweetened',
  },
  grape: {
    sugars: 14.2,
    water: 84.51,
    carbohydrate: 14.77,
    source: 'USDA SR Legacy 09135, grape juice, unsweetened',
  },
  honey: { sugars: 82.12, water: 17.1, carbohydrate: 82.4, source: 'USDA SR Legacy 19296, honey' },
  pear: { sugars: 9.75, water: 83.96, carbohydrate: 15.23, source: 'USDA SR Legacy 09252, pear, raw' },
} as const satisfies Readonly<Record<string, JuiceComposition>>;

/** Lowest °Brix of single-strength reconstituted juice. Source: Codex STAN 247-2005 annex, row from memory. */
export const CODEX_MINIMUM_BRIX = { apple: 11.5, pineapple: 12.8, grape: 16 } as const;

/** Sorbitol in pear juice, g/L, which Saccharomyces leaves. Source: AIJN and handbook range. */
export const PEAR_SORBITOL_GRAMS_PER_LITRE = { low: 9, high: 26 } as const;
