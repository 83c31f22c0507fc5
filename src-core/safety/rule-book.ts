import { sayKeyOf, type Reason, type Rule, type RuleBook } from './rule.ts';
import { BRINED_VEGETABLE_RULES } from './rules/brined-vegetables.ts';
import { CANNING_RULES } from './rules/canning.ts';
import { CLEANING_RULES } from './rules/cleaning.ts';
import { DRINK_RULES } from './rules/drinks.ts';
import { FRUIT_RULES } from './rules/fruit.ts';
import { GAS_RULES } from './rules/gas.ts';
import { GROWTH_RULES } from './rules/growths.ts';
import { HOUSE_LAW_RULES } from './rules/house-law.ts';
import { INFUSION_RULES } from './rules/infusions.ts';
import { KOMBUCHA_RULES } from './rules/kombucha.ts';
import { MATERIAL_RULES } from './rules/materials.ts';
import { MEASUREMENT_RULES } from './rules/measurement.ts';
import { PRESSURE_RULES } from './rules/pressure.ts';
import { STABILISING_RULES } from './rules/stabilising.ts';
import { STRENGTH_RULES } from './rules/strength.ts';
import { VINEGAR_RULES } from './rules/vinegar.ts';

/** All 89 rules. */
export const WHOLE_BOOK: RuleBook = {
  rules: [
    ...VINEGAR_RULES,
    ...STRENGTH_RULES,
    ...CANNING_RULES,
    ...INFUSION_RULES,
    ...BRINED_VEGETABLE_RULES,
    ...KOMBUCHA_RULES,
    ...FRUIT_RULES,
    ...DRINK_RULES,
    ...HOUSE_LAW_RULES,
    ...PRESSURE_RULES,
    ...GAS_RULES,
    ...MATERIAL_RULES,
    ...CLEANING_RULES,
    ...GROWTH_RULES,
    ...STABILISING_RULES,
  ],
  measurementRules: MEASUREMENT_RULES,
};

/** Every rule that speaks to a use, of the whole book. */
export const RULES: readonly Rule[] = WHOLE_BOOK.rules;

/** Reasons for which a measurement rule withholds a number; a rule that needs the number hands them on. */
const WITHHOLDING: ReadonlySet<Reason> = new Set<Reason>([
  'stale_event',
  'stale_age',
  'basis',
  'method',
  'uncalibrated',
  'implausible',
  'guessed',
  'not_equilibrium',
  'readings_disagree',
]);

/** The wording key of every answer that any rule of a book can give, an engine fault included. */
export function sayKeysOf(book: RuleBook): readonly string[] {
  const spoken = [
    ...book.rules.map((rule) => ({ id: rule.id, reasons: [...rule.reasons, ...withheldFrom(rule, book)] })),
    ...book.measurementRules,
  ];
  const keys = spoken.flatMap(({ id, reasons }) =>
    [...reasons, 'engine_fault' as const].map((reason) => sayKeyOf(id, reason)),
  );
  return [...new Set(keys)];
}

/** Reasons for which the measurement rules can withhold a number that this rule needs. */
function withheldFrom(rule: Rule, book: RuleBook): readonly Reason[] {
  return book.measurementRules
    .filter(({ quantities }) =>
      rule.needs.some((need) => quantities === 'every' || quantities.includes(need)),
    )
    .flatMap(({ reasons }) => reasons)
    .filter((reason) => WITHHOLDING.has(reason));
}

/** The wording keys of the whole book. */
export const ALL_SAY_KEYS: readonly string[] = sayKeysOf(WHOLE_BOOK);
