import { FERMENTS } from '#core/ferments/registry.ts';
import { STAGES, type FermentKind, type FilledStage, type Stage } from '#core/ledger/stage.ts';

/** The stage a new batch of a kind begins in: the first of its path. */
export function stageAtStart(ferment: FermentKind): FilledStage {
  return FERMENTS[ferment].path[0] ?? 'waiting';
}

/** Where a liquid off its path usually goes. Common practice, no source. */
const BESIDE_THE_PATH: Partial<Readonly<Record<Stage, readonly FilledStage[]>>> = {
  vinegar: ['maturing', 'ready'],
  held: ['quarantine', 'settling'],
  quarantine: ['held'],
  culture: ['vinegar'],
};

/**
 * Stages that usually follow one, the likeliest first: those ahead on the path of its kind, and Held, into which
 * anything may be put that needs a look.
 */
export function likelyNextStages(stage: Stage | null, ferment: FermentKind | null): readonly FilledStage[] {
  const path = ferment === null ? [] : FERMENTS[ferment].path;
  const at = path.findIndex((step) => step === stage);
  const ahead = stage === null ? path.slice(0, 1) : at < 0 ? [] : path.slice(at + 1, at + 3);
  const beside = at >= 0 || stage === null ? [] : (BESIDE_THE_PATH[stage] ?? []);
  const likely: readonly FilledStage[] = [...ahead, ...beside, 'held'];
  return [...new Set(likely)].filter((next) => next !== stage);
}

const FILLED: readonly FilledStage[] = STAGES.filter((stage) => stage !== 'empty');

/** All stages for a chooser: the likely next ones apart from the rest, the one it is in left out. */
export function stageChoices(
  stage: Stage | null,
  ferment: FermentKind | null,
): { readonly likely: readonly FilledStage[]; readonly other: readonly FilledStage[] } {
  const likely = likelyNextStages(stage, ferment);
  return { likely, other: FILLED.filter((next) => next !== stage && !likely.includes(next)) };
}
