import type { Act, Ingredient } from '#core/ledger/act.ts';

/** The words a keeper wrote or told in an act, names and codes included, for finding it again; empty when there are none. */
export function wordsWritten(act: Act): string {
  switch (act.kind) {
    case 'note':
    case 'feedCulture':
      return act.text;
    case 'recordReading':
      return act.values.taste;
    case 'startBatch':
      return together(
        ...[act.name, act.code, act.note, act.measured?.taste ?? ''],
        ...act.ingredients.map(ingredientWords),
      );
    case 'addTo':
      return ingredientWords(act.ingredient);
    case 'pitchYeast':
      return act.yeast;
    case 'seed':
      return act.what;
    case 'changeStage':
    case 'discard':
    case 'retireVessel':
      return act.reason;
    case 'drawOff':
      return act.purpose;
    case 'addPlace':
    case 'editPlace':
    case 'addVessel':
    case 'editVessel':
    case 'editBatch':
      return together(act.name, act.note);
    case 'bottle':
    case 'heat':
      return act.note;
    case 'overrule':
    case 'quarantine':
    case 'releaseBottles':
      return act.reason;
    case 'addPhoto':
    case 'editCaption':
      return act.caption;
    case 'tasteNote':
      return [act.text, act.by].filter(Boolean).join('\n');
    case 'addCulture':
      return together(act.name, act.standing?.code ?? '', act.source, act.note);
    case 'editCulture':
      return together(act.name, act.source, act.note);
    case 'addShelf':
    case 'editShelf':
    case 'keepBatchFilter':
    case 'editBatchFilter':
      return act.name;
    case 'dropBatchFilter':
      return '';
    case 'transfer':
      return act.newBatch === null ? '' : together(act.newBatch.name, act.newBatch.code);
    case 'tellFacts':
      return toldWords(act.facts).join(' ');
    case 'blend':
    case 'drawAndRefill':
      return act.newBatch === null ? '' : together(act.newBatch.name, act.newBatch.code);
    case 'split':
      return together(
        ...act.parts.flatMap(({ newBatch }) => (newBatch === null ? [] : [newBatch.name, newBatch.code])),
      );
    case 'sample':
    case 'filter':
    case 'cleanVessel':
    case 'returnBottles':
    case 'reconcile':
      return act.note;
    case 'lendVessel':
    case 'takeBottles':
      return together(act.holder, act.note);
    case 'restate':
      return together(
        act.reason,
        ...act.corrections.flatMap(({ act: told }) => (told === null ? [] : [wordsWritten(told)])),
      );
    case 'moveVessel':
    case 'changeClosure':
    case 'settleVolume':
    case 'reverse':
      return '';
  }
}

function together(...texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join('\n');
}

function ingredientWords({ name, amountTyped }: Ingredient): string {
  return [name, amountTyped].filter((text) => text !== '').join(' ');
}

/** What was told, as words: `jellyDisc` is found as "jelly disc", and so is the name of what was asked. */
function toldWords(told: unknown, asked = ''): string[] {
  if (typeof told === 'string') return [inWords(asked), inWords(told)];
  if (told === true) return [inWords(asked)];
  if (typeof told !== 'object' || told === null) return [];
  const inside = Object.entries(told).flatMap(([name, value]) => toldWords(value, name));
  return asked === '' || inside.length === 0 ? inside : [inWords(asked), ...inside];
}

function inWords(name: string): string {
  return name.replace(/(?<=[a-z])(?=[A-Z])/gu, ' ').toLowerCase();
}
