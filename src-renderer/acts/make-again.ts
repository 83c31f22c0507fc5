import type { Leaf } from '#core/contract/book.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { FermentKind } from '#core/ledger/stage.ts';
import { scaleAmount } from '#core/quantities/scale-amount.ts';
import { sayMass, sayVolume } from '../words/quantity-words.ts';
import { sayCost } from '../words/cost-words.ts';
import { calendarDays } from '../words/time-words.ts';

/** What an earlier batch gives to one that makes it again: amounts as they were then. */
export interface Again {
  readonly batchId: BatchId;
  readonly code: string;
  readonly name: string;
  readonly ferment: FermentKind;
  readonly volumeUl: number;
  readonly ingredients: readonly { readonly name: string; readonly amount: string; readonly cost: string }[];
  /** What was put in later, oldest first; the day counts from the start. */
  readonly later: readonly { readonly day: number; readonly what: string; readonly amount: string }[];
}

/** Reads off a leaf, with the lines about it, what is needed to make the batch again. */
export function againFrom(leaf: Leaf, entries: readonly EntryRow[], rules: HouseRules): Again {
  const later = entries
    .filter(({ struck }) => !struck)
    .sort((a, b) => a.happenedAtMs - b.happenedAtMs || a.sequence - b.sequence)
    .flatMap((entry) => {
      const put = putIn(entry, rules);
      return put === null
        ? []
        : [{ day: Math.max(0, calendarDays(leaf.startedAtMs, entry.happenedAtMs)), ...put }];
    });
  return {
    ...{ batchId: leaf.batchId, code: leaf.code, name: leaf.name, ferment: leaf.ferment },
    volumeUl: leaf.startedUl,
    ingredients: leaf.ingredients.map(({ name, amountTyped, massUg, costHundredths = null }) => ({
      name,
      amount: amountTyped !== '' ? amountTyped : massUg === null ? '' : sayMass(massUg, rules),
      cost: costHundredths === null ? '' : sayCost(costHundredths, rules),
    })),
    later,
  };
}

function putIn({ act, names }: EntryRow, rules: HouseRules): { what: string; amount: string } | null {
  switch (act.kind) {
    case 'pitchYeast': {
      const yeast =
        act.yeast === '' ? (act.cultureId === null ? '' : (names[act.cultureId] ?? '')) : act.yeast;
      return { what: `yeast ${yeast}`.trim(), amount: act.massUg === null ? '' : sayMass(act.massUg, rules) };
    }
    case 'addTo': {
      const { name, amountTyped, massUg } = act.ingredient;
      const volume = act.volumeUl === 0 ? '' : sayVolume(act.volumeUl, rules);
      const amount = amountTyped !== '' ? amountTyped : massUg === null ? volume : sayMass(massUg, rules);
      return { what: name, amount };
    }
    case 'seed': {
      const what = act.cultureId === null ? act.what : (names[act.cultureId] ?? act.what);
      const amount = act.volumeUl === 0 ? '' : sayVolume(act.volumeUl, rules);
      return { what: what === '' ? 'raw vinegar' : what, amount };
    }
    default:
      return null;
  }
}

/** An amount for another volume; as it was where it is not a plain number of something. */
export function scaled(amount: string, factor: number): string {
  return scaleAmount(amount, factor) ?? amount;
}

/** Whether an amount can be reckoned over to another volume at all. */
export function isScaled(amount: string): boolean {
  return scaleAmount(amount, 1) !== null;
}

/** The fields the new form begins with, for a volume so many times the old one. */
export function againFields(again: Again, factor: number): Record<string, string> {
  const fields: Record<string, string> = { note: plannedNote(again, factor) };
  again.ingredients.forEach(({ name, amount }, at) => {
    fields[`ingredient${at}`] = name;
    fields[`amount${at}`] = scaled(amount, factor);
  });
  return fields;
}

/** What is still to be put in, as a note to plan by: each line with its day and the amount of then. */
export function plannedNote({ name, code, later }: Again, factor: number): string {
  const made = `Made again from ${name} (${code}).`;
  if (later.length === 0) return made;
  const lines = later.map(({ day, what, amount }) => {
    const now = scaled(amount, factor);
    const then = now === amount || amount === '' ? '' : ` (last time ${amount})`;
    return `day ${day}: ${now === '' ? what : `${now} ${what}`}${then}`;
  });
  return [made, 'Planned:', ...lines].join('\n').slice(0, 4000);
}

/** How many times as much, in words: "as much as last time", "1.5 times as much as last time". */
export function sayFactor(factor: number): string {
  const number = String(Number(factor.toPrecision(3)));
  return number === '1' ? 'as much as last time' : `${number} times as much as last time`;
}
