import type { VesselId } from '#core/ledger/ids.ts';
import type { Inspection, Product } from '#core/safety/facts-of-uses.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { LookAnswers } from '../uses/look.ts';
import { inspectionOf } from '../uses/look.ts';
import { FACT_WORDS } from '../words/fact-words.ts';
import { SIGHT_WORDS, SURFACE_WORDS } from '../words/look-words.ts';
import type { Step } from './act-form.svelte.ts';
import type { FormReader } from './form-reader.ts';

export const LOOK_FIELDS = {
  surface: '',
  feel: '',
  colour: '',
  shape: '',
  where: '',
  smell: '',
  flies: '',
  cover: '',
  eels: '',
  texture: '',
  undecidedSinceMs: '',
  solventSinceMs: '',
  then: 'nothing',
  happenedAtMs: 'now',
} as const;

/** What may follow a look at once. */
export const THEN_WORDS = {
  nothing: 'Nothing more',
  held: 'Move it to Held',
  quarantine: 'Keep it apart in Quarantine',
  discard: 'Throw it out…',
} as const;

/** The answers of the look form as they stand. */
export function readLook(read: FormReader): LookAnswers {
  const bare = read.raw('surface') === 'bare';
  const sign = <Value extends string>(field: string, words: Readonly<Record<Value, string>>): Value | null =>
    bare ? null : read.choiceOrNone(field, words);
  return {
    surface: read.choiceOrNone('surface', SURFACE_WORDS),
    feel: sign('feel', SIGHT_WORDS.feel.choices),
    colour: sign('colour', SIGHT_WORDS.colour.choices),
    shape: sign('shape', SIGHT_WORDS.shape.choices),
    where: sign('where', SIGHT_WORDS.where.choices),
    smell: read.choiceOrNone('smell', FACT_WORDS['inspection.smell'].choices),
    flies: read.choiceOrNone('flies', FACT_WORDS['inspection.flies'].choices),
    cover: read.choiceOrNone('cover', FACT_WORDS['inspection.cover'].choices),
    eels: read.choiceOrNone('eels', FACT_WORDS['inspection.eels'].choices),
    texture: read.choiceOrNone('texture', FACT_WORDS['inspection.texture'].choices),
    undecidedSinceMs: read.moment('undecidedSinceMs'),
    solventSinceMs: read.moment('solventSinceMs'),
  };
}

/** A look as it is written: what was seen, and the stage it leads to when the keeper wants that too. */
export function buildLook(
  read: FormReader,
  given: {
    readonly vesselId: VesselId;
    readonly product: Product | null;
    readonly before: Inspection | null | undefined;
    readonly stage: ShelfRow['stage'] | null;
    /** What was found, as the reason of a move; null when nothing was that asks for one. */
    readonly because: string | null;
  },
): readonly Step[] {
  const { vesselId, product, before, stage, because } = given;
  const answers = readLook(read);
  if (answers.surface === null) {
    read.problem('surface', 'Say what you see on the surface, or that you cannot tell.');
  }
  read.when();
  const atMs = Math.round(read.happenedAtMs ?? read.form.nowMs);
  const inspection = inspectionOf(answers, { atMs, product, before });
  const then = read.raw('then');
  const steps: Step[] = [() => ({ kind: 'tellFacts', vesselId, facts: { inspection } })];
  if (because !== null && (then === 'held' || then === 'quarantine') && then !== stage) {
    steps.push(() => ({ kind: 'changeStage', vesselId, stage: then, reason: because }));
  }
  return steps;
}
