import type { HouseRules } from '#core/contract/house-rules.ts';
import type { LabelOrder } from '#core/contract/labels.ts';
import { cautionsOf } from '#core/labels/label-cautions.ts';
import { composeLabel, type ComposedLabel } from '#core/labels/compose-label.ts';
import { labelContent, type LabelContent } from '#core/labels/label-content.ts';
import type { LabelFacts } from '#core/labels/label-facts.ts';
import type { LabelTools } from '#core/labels/attempt.ts';
import type { LabelLayout } from '#core/labels/layout.ts';
import { wallClock } from '../platform/wall-clock.ts';
import { keptLately } from './kept-lately.ts';
import type { LabelFactsQuery } from './label-facts-query.ts';

/** The labels of one jar of an order: all copies alike, or each with its number. */
export interface JarLabels {
  /** Which of the jars asked for. */
  readonly jar: number;
  readonly id: string;
  readonly name: string;
  readonly cautions: readonly string[];
  readonly copies: number;
  /** One for all copies, or one for each. */
  readonly composed: readonly ComposedLabel[];
}

export interface RunDeps {
  readonly facts: LabelFactsQuery;
  readonly tools: LabelTools;
  readonly rules: Pick<HouseRules, 'jurisdiction'>;
  readonly nowMs: number;
}

/** Composes the labels of an order jar by jar; a jar that is no longer there gives null. */
export function* runOrder(
  order: LabelOrder,
  layout: LabelLayout,
  { facts, tools, rules, nowMs }: RunDeps,
): Generator<JarLabels | null> {
  for (const [jar, { of, copies }] of order.jars.entries()) {
    const known = facts.of(of, rules, nowMs);
    yield known === null ? null : jarLabels(order, layout, tools, { jar, copies, known });
  }
}

function jarLabels(
  order: LabelOrder,
  layout: LabelLayout,
  tools: LabelTools,
  { jar, copies, known }: { readonly jar: number; readonly copies: number; readonly known: LabelFacts },
): JarLabels {
  const content = (counted: string): LabelContent => labelContent(known, order, wallClock, counted);
  const { id, name } = content('');
  const counts =
    order.numbered && copies > 1 ? Array.from({ length: copies }, (_, n) => `${n + 1} of ${copies}`) : [''];
  return {
    ...{ jar, id, name, copies },
    cautions: known.verdicts === null ? [] : cautionsOf(known.verdicts),
    composed: counts.map((counted) => composeLabel(content(counted), layout, tools)),
  };
}

/** Codes by their text: the same one is tried in several manners of composing, and twice for a PDF. */
export function rememberCodes(make: LabelTools['makeCode']): LabelTools['makeCode'] {
  const made = keptLately<readonly string[]>(CODES_KEPT_MOST);
  return (text) => {
    const known = made.get(text) ?? make(text);
    made.set(text, known);
    return known;
  };
}

const CODES_KEPT_MOST = 1000;
