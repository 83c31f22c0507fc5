import type { Component } from '#core/ledger/masses.ts';

/** What the book weighs, in a keeper's words. */
export const COMPONENT_WORDS: Readonly<Record<Component, string>> = {
  water: 'water',
  sugar: 'sugar',
  ethanol: 'alcohol',
  acetic: 'acetic acid',
  lactic: 'lactic acid',
  fixedAcid: 'fruit acid',
  salt: 'salt',
  carbonDioxide: 'carbon dioxide',
  oxygen: 'oxygen',
  other: 'other solids',
  unassayed: 'what was never measured',
};
