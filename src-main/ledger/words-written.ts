import type { Act } from '#core/ledger/act.ts';

/** The words a keeper wrote in an act, for finding it again; empty when there are none. */
export function wordsWritten(act: Act): string {
  switch (act.kind) {
    case 'note':
    case 'feedCulture':
      return act.text;
    case 'recordReading':
      return act.values.taste;
    case 'startBatch':
      return [act.note, act.measured?.taste ?? '', ...act.ingredients.map((i) => i.name)]
        .filter(Boolean)
        .join('\n');
    case 'addTo':
      return act.ingredient.name;
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
    case 'bottle':
    case 'heat':
      return act.note;
    case 'overrule':
      return act.reason;
    case 'addPhoto':
    case 'editCaption':
      return act.caption;
    case 'tasteNote':
      return [act.text, act.by].filter(Boolean).join('\n');
    case 'addCulture':
    case 'editCulture':
      return [act.source, act.note].filter(Boolean).join('\n');
    case 'addShelf':
    case 'editShelf':
    case 'moveVessel':
    case 'changeClosure':
    case 'transfer':
    case 'settleVolume':
    case 'tellFacts':
    case 'reverse':
      return '';
  }
}
