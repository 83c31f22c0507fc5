import type {
  ACIDITY_METHODS,
  ACIDS,
  GRAVITY_INSTRUMENTS,
  PH_METHODS,
  ReadingDetail,
} from '#core/ledger/act.ts';

export const INSTRUMENT_WORDS: Readonly<Record<(typeof GRAVITY_INSTRUMENTS)[number], string>> = {
  hydrometer: 'hydrometer',
  refractometer: 'refractometer',
  laboratory: 'laboratory',
};

export const PH_METHOD_WORDS: Readonly<Record<(typeof PH_METHODS)[number], string>> = {
  meterToday: 'meter, checked in two buffers today',
  meterThisWeek: 'meter, checked within a week',
  meterUnknown: 'meter, not checked lately',
  narrowStrip: 'narrow-range strip',
  wideStrip: 'wide-range strip',
};

export const ACIDITY_METHOD_WORDS: Readonly<Record<(typeof ACIDITY_METHODS)[number], string>> = {
  syringeKit: 'titration with a syringe kit',
  burette: 'titration with a burette',
  laboratory: 'laboratory',
  label: 'label of a bought bottle',
};

export const ACID_WORDS: Readonly<Record<(typeof ACIDS)[number], string>> = {
  acetic: 'acetic',
  malic: 'malic',
  tartaric: 'tartaric',
  citric: 'citric',
  lactic: 'lactic',
  sulfuric: 'sulfuric',
};

export const SAMPLE_WORDS: Readonly<Record<NonNullable<ReadingDetail['phSampleFrom']>, string>> = {
  brine: 'the brine alone',
  blended: 'drained vegetables, blended',
  surface: 'the surface',
  bottle: 'a bottle or jar of it',
};

export const ALCOHOL_METHOD_WORDS: Readonly<Record<NonNullable<ReadingDetail['alcoholMethod']>, string>> = {
  alcoholLaboratory: 'a laboratory',
  ebulliometer: 'an ebulliometer, by its boiling point',
  alcoholFromGravities: 'worked out from two gravities',
};

export const BASIS_WORDS: Readonly<Record<NonNullable<ReadingDetail['acidityBasis']>, string>> = {
  'w/v': 'grams in 100 mL',
  'w/w': 'grams in 100 g',
};
