import type { FermentKind, FilledStage, Stage } from '#core/ledger/stage.ts';

/**
 * Stages that usually follow one, the likeliest first; `null` stands for a kind or stage that is not known. Order of
 * the trade: common practice, no source. Every other stage stays open to choose.
 */
export function likelyNextStages(stage: Stage | null, ferment: FermentKind | null): readonly FilledStage[] {
  switch (stage) {
    case null:
    case 'empty':
      return [ferment === 'brinedVegetables' ? 'lactic' : 'waiting'];
    case 'waiting':
      return [firstFerment(ferment), 'held'];
    case 'yeast':
      return ferment === 'fruitVinegar' ? ['settling', 'vinegar', 'held'] : ['settling', 'maturing', 'held'];
    case 'settling':
      return ferment === 'fruitVinegar' ? ['vinegar', 'maturing', 'held'] : ['maturing', 'ready', 'vinegar'];
    case 'vinegar':
      return ['maturing', 'ready', 'held'];
    case 'lactic':
      return ['ready', 'maturing', 'held'];
    case 'maturing':
      return ['ready', 'held'];
    case 'ready':
      return ['maturing', 'held'];
    case 'held':
      return ['quarantine', firstFerment(ferment), 'settling'];
    case 'quarantine':
      return ['held'];
    case 'culture':
      return ['vinegar', 'held'];
  }
}

function firstFerment(ferment: FermentKind | null): FilledStage {
  if (ferment === 'brinedVegetables') return 'lactic';
  return ferment === 'kombucha' ? 'vinegar' : 'yeast';
}

const FILLED: readonly FilledStage[] = [
  ...(['waiting', 'yeast', 'settling', 'vinegar', 'lactic'] as const),
  ...(['maturing', 'ready', 'held', 'quarantine', 'culture'] as const),
];

/** All stages for a chooser: the likely next ones apart from the rest, the one it is in left out. */
export function stageChoices(
  stage: Stage | null,
  ferment: FermentKind | null,
): { readonly likely: readonly FilledStage[]; readonly other: readonly FilledStage[] } {
  const likely = likelyNextStages(stage, ferment).filter((next) => next !== stage);
  return { likely, other: FILLED.filter((next) => next !== stage && !likely.includes(next)) };
}
