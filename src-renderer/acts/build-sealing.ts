import type { Verdict } from '#core/contract/verdict.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { PRESSURE_RULES } from '#core/safety/rules/pressure.ts';
import { toldFromForm } from '../uses/answers.ts';
import type { FactPath } from '../words/fact-words.ts';
import type { Step } from './act-form.svelte.ts';
import { buildBottle } from './build-liquid.ts';
import type { FormReader } from './form-reader.ts';

export const SEALING_FIELDS = { closed: '', sealingReason: '' } as const;

/** How bottles are closed, where a rule speaks to sealing them. */
export const CLOSED_WORDS = {
  loose: 'Loosely, or under a water lock',
  tight: 'Sealed tight',
} as const;

const REASON_LETTERS = 3;
const LOOSELY = 'Closed loosely.';

/**
 * Bottling as it is written. Where the rules speak to sealing and are not met, tight bottles need a reason of the keeper's own,
 * which is written too; where a rule lets no reason stand, only loosely closed bottles can be kept. Answers that were not told
 * yet have to be told first, so that they are checked.
 */
export function buildBottling(
  read: FormReader,
  given: {
    readonly vesselId: VesselId;
    readonly verdict: Verdict | null;
    readonly paths: readonly FactPath[];
    readonly before: ToldFacts;
  },
): ActDraft | readonly Step[] {
  const { vesselId, verdict } = given;
  const bottle = buildBottle(read, vesselId);
  if (bottle.kind !== 'bottle' || verdict === null || !isJudged(verdict)) return bottle;
  const untold = toldFromForm(read, { ...given, atMs: read.happenedAtMs ?? read.form.nowMs });
  if (verdict.word === 'meetsTheRule' && Object.keys(untold).length === 0) return bottle;
  const closed = read.choiceOrNone('closed', CLOSED_WORDS);
  if (closed === null) {
    read.problem('closed', 'Say how the bottles are closed. Sealed tight, they can burst.');
  }
  if (closed !== 'tight') {
    const note = bottle.note === '' ? LOOSELY : `${bottle.note} ${LOOSELY}`;
    return { ...bottle, note: note.slice(0, 4000) };
  }
  if (Object.keys(untold).length > 0) {
    read.problem('closed', 'Some answers above are not checked yet. Press “Tell this and check” first.');
    return bottle;
  }
  if (!verdict.mayBeOverruled) {
    read.problem(
      'closed',
      'A rule that speaks here lets no reason stand against it. Close them loosely, or mend what it names and check again.',
    );
    return bottle;
  }
  if (verdict.overruled !== null) return bottle;
  const reason = read.note('sealingReason');
  if (reason.length < REASON_LETTERS) {
    read.problem(
      'sealingReason',
      'The rules are not met. Write why they are sealed all the same, in at least three letters; the caution stays.',
    );
  }
  return [() => ({ kind: 'overrule', vesselId, use: 'sealInBottle', reason }), () => bottle];
}

/** Rules on gas shut in, as against those on the glass, which say nothing of what is in it. */
const ON_GAS = new Set([...PRESSURE_RULES.map(({ id }) => id), 'KOM-06']);

/** True where a rule on gas speaks to sealing this; a drink without one is never judged, only said to have none. */
export function isJudged(verdict: Pick<Verdict, 'findings'>): boolean {
  return verdict.findings.some(({ ruleId }) => ON_GAS.has(ruleId));
}
