import { parseCost } from '#core/quantities/parse-cost.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { sayCostError } from '../words/cost-words.ts';
import type { FormReader } from './form-reader.ts';

/** The cost of an ingredient as it stands in an act; nothing at all where none was told. */
export function readCost(read: FormReader, field: string): { costHundredths?: number } {
  const text = read.raw(field);
  if (text === '') return {};
  const cost = parseCost(text, cellar.rules.currency);
  if (cost.ok) {
    read.typed[field] = text;
    return { costHundredths: cost.value };
  }
  const { sentence, fixes } = sayCostError(cost.error);
  read.problem(field, sentence, fixes);
  return {};
}
