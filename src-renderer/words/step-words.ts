import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { sayEntry } from './act-words.ts';

const COUNT = new Intl.NumberFormat('en');
const TAKEN = { undo: 'Taken back', redo: 'Done again', strike: 'Struck through' } as const;

type StepSaid = Pick<EntryRow, 'act' | 'names' | 'reversed' | 'together'>;

/** A step of the book in one sentence: one line as itself, lines that were written together by their number. */
export function sayStep(
  entry: StepSaid,
  rules: Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>,
): string {
  const { act, reversed, together } = entry;
  if (together === undefined) return sayEntry(entry, rules);
  const first = act.kind === 'reverse' ? reversed?.act.kind : act.kind;
  const many = COUNT.format(together);
  const said = first === 'recordReading' ? `${many} readings brought in` : `${many} lines written together`;
  return act.kind === 'reverse' ? `${TAKEN[act.how]}: ${said}.` : `${said}.`;
}
