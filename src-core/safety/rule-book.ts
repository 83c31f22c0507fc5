import { sayKeyOf, type Rule } from './rule.ts';
import { CANNING_RULES } from './rules/canning.ts';
import { MEASUREMENT_RULES } from './rules/measurement.ts';
import { VINEGAR_RULES } from './rules/vinegar.ts';

/** Every rule that speaks to a use. Their order is the order of the rules' numbers; the verdict is sorted by itself. */
export const RULES: readonly Rule[] = [...VINEGAR_RULES, ...CANNING_RULES];

/** The wording key of every answer that any rule can give, an engine fault included. */
export const ALL_SAY_KEYS: readonly string[] = [...RULES, ...MEASUREMENT_RULES].flatMap((rule) =>
  [...rule.reasons, 'engine_fault' as const].map((reason) => sayKeyOf(rule.id, reason)),
);
