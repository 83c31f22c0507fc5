import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { toldFromForm } from '../uses/answers.ts';
import type { FactPath } from '../words/fact-words.ts';
import type { FormReader } from './form-reader.ts';

/** What a keeper tells of a vessel, one act however many groups: only what differs from what was told before. */
export function buildTell(
  read: FormReader,
  given: { readonly vesselId: VesselId; readonly paths: readonly FactPath[]; readonly before: ToldFacts },
): ActDraft {
  read.when();
  const atMs = read.happenedAtMs ?? read.form.nowMs;
  const facts = toldFromForm(read, { ...given, atMs: Math.round(atMs) });
  const [first = ''] = given.paths;
  if (Object.keys(facts).length === 0 && read.problems.length === 0) {
    read.problem(first, 'Nothing new is told yet. Answer at least one question, or close the form.');
  }
  return { kind: 'tellFacts', vesselId: given.vesselId, facts };
}

/** The shortest reason the book takes for going against a verdict. */
const REASON_LETTERS = 3;

/** Going against a verdict. The reason is kept beside it; the verdict itself stays as it is. */
export function buildOverrule(
  read: FormReader,
  given: { readonly vesselId: VesselId; readonly use: string },
): ActDraft {
  const reason = read.note('reason');
  if (reason.length < REASON_LETTERS) {
    read.problem('reason', 'Write why, in at least three letters. The book keeps it beside the verdict.');
  }
  read.when();
  return { kind: 'overrule', ...given, reason };
}
