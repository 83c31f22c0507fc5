import { bookContract } from './book.ts';
import { cellarContract } from './cellar.ts';
import { culturesContract } from './cultures.ts';
import { exchangeContract } from './exchange.ts';
import { findContract } from './find.ts';
import { houseRulesContract } from './house-rules.ts';
import { labelsContract } from './labels.ts';
import { ledgerContract } from './ledger.ts';
import { pedigreeContract } from './pedigree.ts';
import { photosContract } from './photos.ts';
import { shelvesContract } from './shelves.ts';
import { strongboxContract } from './strongbox.ts';
import { tastingsContract } from './tastings.ts';

/** The one table of methods: every host answers it, every screen is typed by it. */
export const contract = {
  cellar: cellarContract,
  houseRules: houseRulesContract,
  ledger: ledgerContract,
  shelves: shelvesContract,
  book: bookContract,
  cultures: culturesContract,
  pedigree: pedigreeContract,
  find: findContract,
  photos: photosContract,
  labels: labelsContract,
  exchange: exchangeContract,
  tastings: tastingsContract,
  strongbox: strongboxContract,
};
export type Contract = typeof contract;
