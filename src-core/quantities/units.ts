import type { QuantityKind } from './understood.ts';
import { rational, type Rational } from './rational.ts';

/** How a number in this unit becomes the canonical number of its kind. */
export type UnitScale =
  /** canonical = number × factor, exactly. */
  | { readonly by: 'factor'; readonly factor: Rational }
  /** canonical = (number − 32) × 5/9. */
  | { readonly by: 'fahrenheit' }
  /** canonical = number − 273.15. */
  | { readonly by: 'kelvin' }
  /** canonical = 1 + number / 1000. */
  | { readonly by: 'gravityPoints' }
  /** canonical = apparent SG 20/20 of a sucrose solution of so many per cent. */
  | { readonly by: 'sucroseScale' };

export interface Unit {
  /** The unit as it is written back. */
  readonly symbol: string;
  readonly scale: UnitScale;
  /** Set for US customary measures, which differ from the imperial ones of the same name. */
  readonly usCustomary?: true;
}

const factor = (numerator: bigint, denominator: bigint = 1n): UnitScale => ({
  by: 'factor',
  factor: rational(numerator, denominator),
});
const ONE = factor(1n);

/**
 * Exact conversion factors. US customary volumes follow from 1 US gallon = 231 cubic inches = 3.785411784 L, imperial
 * ones from 1 gallon = 4.54609 L, masses from 1 lb = 453.59237 g. Source: NIST SP 811 appendix B.
 */
const VOLUME: Readonly<Record<string, Unit>> = {
  ul: { symbol: 'µL', scale: ONE },
  ml: { symbol: 'ml', scale: factor(1_000n) },
  cl: { symbol: 'cl', scale: factor(10_000n) },
  dl: { symbol: 'dl', scale: factor(100_000n) },
  l: { symbol: 'L', scale: factor(1_000_000n) },
  hl: { symbol: 'hl', scale: factor(100_000_000n) },
  m3: { symbol: 'm³', scale: factor(1_000_000_000n) },
  gal: { symbol: 'gal', scale: factor(3_785_411_784n, 1_000n), usCustomary: true },
  qt: { symbol: 'qt', scale: factor(946_352_946n, 1_000n), usCustomary: true },
  pt: { symbol: 'pt', scale: factor(473_176_473n, 1_000n), usCustomary: true },
  cup: { symbol: 'cup', scale: factor(473_176_473n, 2_000n), usCustomary: true },
  'fl oz': { symbol: 'fl oz', scale: factor(473_176_473n, 16_000n), usCustomary: true },
  tbsp: { symbol: 'tbsp', scale: factor(473_176_473n, 32_000n), usCustomary: true },
  tsp: { symbol: 'tsp', scale: factor(473_176_473n, 96_000n), usCustomary: true },
  'imp gal': { symbol: 'imp gal', scale: factor(4_546_090n) },
  'imp qt': { symbol: 'imp qt', scale: factor(2_273_045n, 2n) },
  'imp pt': { symbol: 'imp pt', scale: factor(2_273_045n, 4n) },
  'imp fl oz': { symbol: 'imp fl oz', scale: factor(2_273_045n, 80n) },
};

const MASS: Readonly<Record<string, Unit>> = {
  mg: { symbol: 'mg', scale: factor(1_000n) },
  g: { symbol: 'g', scale: factor(1_000_000n) },
  kg: { symbol: 'kg', scale: factor(1_000_000_000n) },
  t: { symbol: 't', scale: factor(1_000_000_000_000n) },
  lb: { symbol: 'lb', scale: factor(453_592_370n) },
  oz: { symbol: 'oz', scale: factor(226_796_185n, 8n) },
};

const BY_KIND: Readonly<Record<QuantityKind, Readonly<Record<string, Unit>>>> = {
  gravity: {
    sg: { symbol: 'SG', scale: ONE },
    pts: { symbol: 'pts', scale: { by: 'gravityPoints' } },
    bx: { symbol: '°Bx', scale: { by: 'sucroseScale' } },
    p: { symbol: '°P', scale: { by: 'sucroseScale' } },
  },
  acidity: {
    '%': { symbol: '%', scale: ONE },
    'g/100 ml': { symbol: 'g/100 mL', scale: ONE },
    'g/l': { symbol: 'g/L', scale: factor(1n, 10n) },
    'mg/l': { symbol: 'mg/L', scale: factor(1n, 10_000n) },
    grain: { symbol: 'grain', scale: factor(1n, 10n) },
  },
  pH: { ph: { symbol: 'pH', scale: ONE } },
  volume: VOLUME,
  temperature: {
    c: { symbol: '°C', scale: ONE },
    f: { symbol: '°F', scale: { by: 'fahrenheit' } },
    k: { symbol: 'K', scale: { by: 'kelvin' } },
  },
  mass: MASS,
  freeSulfite: {
    'mg/l': { symbol: 'mg/L', scale: ONE },
    ppm: { symbol: 'ppm', scale: ONE },
    'g/l': { symbol: 'g/L', scale: factor(1_000n) },
  },
  alcohol: {
    '% vol': { symbol: '% vol', scale: ONE },
    proof: { symbol: 'US proof', scale: factor(1n, 2n) },
  },
  salt: {
    '%': { symbol: '%', scale: ONE },
    'g/kg': { symbol: 'g/kg', scale: factor(1n, 10n) },
  },
};

/** Other ways to write a unit, kind by kind, after {@link tidyUnit}. */
const ALIASES: Readonly<Record<QuantityKind, Readonly<Record<string, string>>>> = {
  gravity: {
    'specific gravity': 'sg',
    points: 'pts',
    point: 'pts',
    pt: 'pts',
    brix: 'bx',
    'degrees brix': 'bx',
    '% brix': 'bx',
    plato: 'p',
    'degrees plato': 'p',
  },
  acidity: {
    'g/100ml': 'g/100 ml',
    'g/dl': 'g/100 ml',
    '% w/v': '%',
    '% m/v': '%',
    percent: '%',
    'per cent': '%',
    gpl: 'g/l',
    grains: 'grain',
  },
  pH: {},
  volume: {
    µl: 'ul',
    μl: 'ul',
    microlitre: 'ul',
    microlitres: 'ul',
    millilitre: 'ml',
    millilitres: 'ml',
    milliliter: 'ml',
    milliliters: 'ml',
    cc: 'ml',
    centilitre: 'cl',
    centilitres: 'cl',
    decilitre: 'dl',
    decilitres: 'dl',
    lt: 'l',
    ltr: 'l',
    litre: 'l',
    litres: 'l',
    liter: 'l',
    liters: 'l',
    hectolitre: 'hl',
    hectolitres: 'hl',
    gals: 'gal',
    gallon: 'gal',
    gallons: 'gal',
    'us gal': 'gal',
    'us gallon': 'gal',
    'us gallons': 'gal',
    qts: 'qt',
    quart: 'qt',
    quarts: 'qt',
    'us qt': 'qt',
    'us quart': 'qt',
    'us quarts': 'qt',
    pts: 'pt',
    pint: 'pt',
    pints: 'pt',
    'us pt': 'pt',
    'us pint': 'pt',
    'us pints': 'pt',
    cups: 'cup',
    'us cup': 'cup',
    'us cups': 'cup',
    floz: 'fl oz',
    'us fl oz': 'fl oz',
    'fluid ounce': 'fl oz',
    'fluid ounces': 'fl oz',
    tablespoon: 'tbsp',
    tablespoons: 'tbsp',
    teaspoon: 'tsp',
    teaspoons: 'tsp',
    'imp gallon': 'imp gal',
    'imp gallons': 'imp gal',
    'imperial gal': 'imp gal',
    'imperial gallon': 'imp gal',
    'imperial gallons': 'imp gal',
    'uk gal': 'imp gal',
    'uk gallon': 'imp gal',
    'uk gallons': 'imp gal',
    'imperial quart': 'imp qt',
    'imperial quarts': 'imp qt',
    'imperial pint': 'imp pt',
    'imperial pints': 'imp pt',
    'imp pint': 'imp pt',
    'imp pints': 'imp pt',
    'uk pint': 'imp pt',
    'uk pints': 'imp pt',
    'uk pt': 'imp pt',
    'uk fl oz': 'imp fl oz',
    'imperial fl oz': 'imp fl oz',
  },
  temperature: {
    celsius: 'c',
    'deg c': 'c',
    degc: 'c',
    'degrees c': 'c',
    fahrenheit: 'f',
    'deg f': 'f',
    degf: 'f',
    'degrees f': 'f',
    kelvin: 'k',
  },
  mass: {
    milligram: 'mg',
    milligrams: 'mg',
    gram: 'g',
    grams: 'g',
    gm: 'g',
    gr: 'g',
    kilo: 'kg',
    kilos: 'kg',
    kilogram: 'kg',
    kilograms: 'kg',
    tonne: 't',
    tonnes: 't',
    lbs: 'lb',
    pound: 'lb',
    pounds: 'lb',
    ounce: 'oz',
    ounces: 'oz',
  },
  freeSulfite: { mgl: 'mg/l', 'mg/l so2': 'mg/l', 'ppm so2': 'ppm' },
  alcohol: {
    '%': '% vol',
    '% abv': '% vol',
    abv: '% vol',
    '% v/v': '% vol',
    '%vol': '% vol',
    vol: '% vol',
    alcohol: '% vol',
    '% alcohol': '% vol',
    '% volume': '% vol',
    '% by vol': '% vol',
    '% by volume': '% vol',
    'vol%': '% vol',
    'vol %': '% vol',
    'vol-%': '% vol',
    'us proof': 'proof',
  },
  salt: { percent: '%', 'per cent': '%' },
};

/** The unit of this kind that a keeper wrote, or null when it is none. */
export function findUnit(kind: QuantityKind, written: string): Unit | null {
  const tidy = tidyUnit(written);
  const name = Object.hasOwn(ALIASES[kind], tidy) ? (ALIASES[kind][tidy] ?? tidy) : tidy;
  return Object.hasOwn(BY_KIND[kind], name) ? (BY_KIND[kind][name] ?? null) : null;
}

/** The units of a kind, as they are written back, for naming what is allowed. */
export function knownUnits(kind: QuantityKind): readonly string[] {
  return Object.values(BY_KIND[kind]).map((unit) => unit.symbol);
}

/** A unit in lower case without degree signs, full stops or doubled spaces, and with one form of `%` and `/`. */
export function tidyUnit(written: string): string {
  return written
    .toLowerCase()
    .replaceAll(/[°º˚.]/gu, '')
    .replaceAll(/ ?\/ ?/gu, '/')
    .replaceAll(/% ?/gu, '% ')
    .replaceAll(/ +/gu, ' ')
    .trim();
}
