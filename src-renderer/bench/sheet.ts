import type { HouseRules } from '#core/contract/house-rules.ts';
import { shownText } from '#core/quantities/format-quantity.ts';
import { knownUnits } from '#core/quantities/units.ts';
import { askedFields } from '#core/reckonings/asked-fields.ts';
import type { Reckoned, Reckoning, ReckoningField } from '#core/reckonings/reckoning.ts';
import { RULES, WHOLE_BOOK } from '#core/safety/rule-book.ts';
import { SOURCES } from '#core/safety/sources.ts';
import {
  sayAnswer,
  sayCaution,
  sayChoice,
  sayField,
  sayReckoning,
  sayStep,
  sayStepValue,
} from '../words/reckoning-words.ts';
import { sayMoment } from '../words/time-words.ts';
import { houseUnit, writeAnswer } from './answer-units.ts';
import { otherwiseText } from './otherwise.ts';
import { sayRangeKind } from './range-kind.ts';

/** A reckoning written out, to be copied or printed: everything that stands on the screen and where it comes from. */
export interface Sheet {
  readonly title: string;
  readonly purpose: string;
  /** For which vessel, and when it was worked out. */
  readonly about: string;
  readonly inputs: readonly { readonly label: string; readonly text: string; readonly note: string }[];
  readonly answers: readonly { readonly label: string; readonly text: string }[];
  readonly cautions: readonly { readonly sentence: string; readonly ruleId: string | null }[];
  readonly steps: readonly {
    readonly what: string;
    readonly working: string;
    readonly value: string;
    readonly source: string;
  }[];
  readonly sources: readonly string[];
}

export interface SheetGiven {
  readonly reckoning: Reckoning;
  readonly reckoned: Reckoned;
  /** The fields as typed. */
  readonly texts: Readonly<Record<string, string>>;
  /** What stands beneath a field: where its value was read. */
  readonly notes: Readonly<Record<string, string>>;
  /** Units the keeper has chosen, by answer. */
  readonly units: Readonly<Record<string, string>>;
  readonly vesselWords: string | null;
  readonly rules: HouseRules;
  readonly nowMs: number;
}

export function sheetOf(given: SheetGiven): Sheet {
  const { reckoning, reckoned, rules } = given;
  const { name, purpose } = sayReckoning(reckoning.id);
  const worked = `Worked out ${sayMoment(given.nowMs, rules)}`;
  return {
    ...{ title: name, purpose },
    about: given.vesselWords === null ? `${worked}.` : `For ${given.vesselWords}. ${worked}.`,
    inputs: askedFields(reckoning.fields, given.texts).flatMap((field) => input(field, given)),
    answers: reckoned.answers.map((answer) => {
      const isConversion = reckoning.group === 'convert';
      const unit = isConversion ? answer.unit : (given.units[answer.name] ?? houseUnit(answer, rules));
      const { text, range } = writeAnswer(answer, unit, isConversion);
      const law = range === null ? null : `${range} (${sayRangeKind(reckoned.steps)})`;
      return {
        label: sayAnswer(reckoning.id, answer.name),
        text: [text, law].filter((part) => part !== null).join('; '),
      };
    }),
    cautions: reckoned.cautions.map(sayCaution),
    steps: reckoned.steps.map((step) => ({
      what: sayStep(step.name),
      working: step.working,
      value: sayStepValue(step),
      source: step.source,
    })),
    sources: sourcesOf(reckoned),
  };
}

/** The sheet as plain text, for the clipboard. */
export function sheetText(sheet: Sheet): string {
  const lines: string[] = [sheet.title, sheet.about, ''];
  for (const { label, text, note } of sheet.inputs) {
    lines.push(`${label}: ${text}${note === '' ? '' : ` (${note.replace(/\.$/u, '')})`}`);
  }
  lines.push('');
  for (const { label, text } of sheet.answers) lines.push(`${label}: ${text}`);
  if (sheet.cautions.length > 0) lines.push('', 'Mind');
  for (const { sentence, ruleId } of sheet.cautions) {
    lines.push(`- ${sentence}${ruleId === null ? '' : ` (rule ${ruleId})`}`);
  }
  lines.push('', 'The working');
  sheet.steps.forEach(({ what, working, value, source }, i) => {
    lines.push(`${i + 1}. ${what}: ${working} = ${value} [${source}]`);
  });
  lines.push('', 'Sources', ...sheet.sources.map((source) => `- ${source}`), '');
  return lines.join('\n').replaceAll('\u00A0', ' ');
}

function input(
  field: ReckoningField,
  { reckoning, texts, notes, rules }: SheetGiven,
): readonly { readonly label: string; readonly text: string; readonly note: string }[] {
  const { label } = sayField(reckoning.id, field.name);
  const typed = (texts[field.name] ?? '').trim();
  const note = notes[field.name] ?? '';
  if (field.kind === 'choice') {
    const chosen = field.choices.includes(typed) ? typed : field.otherwise;
    return [{ label, text: sayChoice(field.name, chosen), note }];
  }
  if (typed !== '') return [{ label, text: withUnit(field, typed), note }];
  const usual = otherwiseText(field, rules);
  return usual === null ? [] : [{ label, text: usual, note: 'the usual value' }];
}

/** A number typed without its unit gets it, so that the sheet can be read by itself. */
function withUnit(field: Exclude<ReckoningField, { kind: 'choice' }>, typed: string): string {
  const isBare = !/[^\d\s.,'+\-\u2212/½¼¾⅓⅔]/u.test(typed);
  if (!isBare) return typed;
  if (field.kind === 'number') {
    return shownText({ number: typed, unit: field.unit === '1' ? '' : field.unit }).trim();
  }
  const units = knownUnits(field.quantity);
  return units.length === 1 && field.quantity !== 'pH' ? `${typed} ${units[0] ?? ''}` : typed;
}

/** Where the formulas and the rules of the cautions stand written, each once. */
function sourcesOf({ steps, cautions }: Reckoned): readonly string[] {
  const ofRules = cautions.flatMap((caution) => {
    const { ruleId } = sayCaution(caution);
    if (ruleId === null) return [];
    const rule = [...RULES, ...WHOLE_BOOK.measurementRules].find(({ id }) => id === ruleId);
    return (rule?.sourceIds ?? []).map((id) => `${SOURCES[id].title} (rule ${ruleId})`);
  });
  return [...new Set([...steps.map(({ source }) => source), ...ofRules])];
}
