import { BENCH } from '#core/reckonings/bench.ts';
import type {
  Reckoned,
  ReckonedAnswer,
  ReckoningError,
  ReckoningValues,
} from '#core/reckonings/reckoning.ts';

export function reckoningOf(id: string) {
  const found = BENCH.find((reckoning) => reckoning.id === id);
  if (!found) throw new Error(`No reckoning ${id}`);
  return found;
}

/** The result of a reckoning that must be answered. */
export function reckoned(id: string, values: ReckoningValues): Reckoned {
  const result = reckoningOf(id).reckon(values);
  if (!result.ok) throw new Error(`${id} refused: ${JSON.stringify(result.error)}`);
  return result.value;
}

/** One answer of a result that must hold it. */
export function answerOf(id: string, values: ReckoningValues, name: string): ReckonedAnswer {
  const found = reckoned(id, values).answers.find((answer) => answer.name === name);
  if (!found) throw new Error(`${id} gives no ${name}`);
  return found;
}

export function valueOf(id: string, values: ReckoningValues, name: string): number {
  return answerOf(id, values, name).value;
}

/** The refusal of a reckoning that must refuse. */
export function refusalOf(id: string, values: ReckoningValues): ReckoningError {
  const result = reckoningOf(id).reckon(values);
  if (result.ok) throw new Error(`${id} answered`);
  return result.error;
}

export const L = 1e6;
export const G = 1e6;
export const KG = 1e9;
