import { assertNever } from '#core/base/exhaustive.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ActOf, Ingredient } from '#core/ledger/act.ts';
import type { Closure, Silhouette } from '#core/ledger/stage.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { sayCellarWork, sayCellarWorkShort } from './cellar-work-words.ts';
import { CULTURE_SORT_WORDS, FERMENT_KIND_WORDS } from './choice-words.ts';
import { sayAlcohol, sayMass, sayTemperature, sayVolume } from './quantity-words.ts';
import { sayToldGroup } from './told-words.ts';
import { sayUse } from './verdict-words.ts';
import { readingInShort, readingPhrases } from './reading-words.ts';
import { sayTasting } from './taste-words.ts';

const SHUT_WITH: Readonly<Record<Closure, string>> = {
  airlock: 'a water lock',
  cloth: 'a cloth',
  lid: 'a lid',
  cork: 'a cork',
  bung: 'a bung',
  open: '',
};

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>;
/** What of a line its sentence needs. */
type EntrySaid = Pick<EntryRow, 'act' | 'names' | 'reversed'>;

/**
 * A line of the book as one sentence without its date, such as "Acidity 4.1 % as acetic, in Jar 2." Amounts are in the
 * keeper's units; text the keeper wrote is given as written.
 */
export function sayEntry(entry: EntrySaid, rules: Rules): string {
  return entry.act.kind === 'note' ? entry.act.text : sentence(phrase(entry, rules));
}

function phrase(entry: EntrySaid, rules: Rules): string {
  const { act } = entry;
  const called = (id: string | null, otherwise: string): string =>
    (id === null ? null : entry.names[id]) ?? otherwise;
  const vessel = (id: string): string => called(id, 'a vessel');
  const amount = (ul: number): string => sayVolume(ul, rules);
  switch (act.kind) {
    case 'addPlace':
      return `place ${act.name} added`;
    case 'editPlace':
      return `place changed, now called ${act.name}`;
    case 'addShelf':
      return `shelf ${act.letter} added, ${act.name}, ${counted(act.positions, 'position')}`;
    case 'editShelf':
      return `shelf changed, now called ${act.name}, ${counted(act.positions, 'position')}`;
    case 'addVessel':
      return `${madeOf(act, amount(act.capacityUl))} added as vessel ${act.number}`;
    case 'editVessel':
      return `${vessel(act.vesselId)} described anew: ${madeOf(act, amount(act.capacityUl))}`;
    case 'moveVessel':
      return act.shelfId === null
        ? `${vessel(act.vesselId)} taken off the shelf`
        : `${vessel(act.vesselId)} put on ${called(act.shelfId, 'a shelf')}, position ${act.position ?? '?'}`;
    case 'retireVessel':
      return because(`${vessel(act.vesselId)} retired`, act.reason);
    case 'changeClosure':
      return act.closure === 'open'
        ? `${vessel(act.vesselId)} left open`
        : `${vessel(act.vesselId)} closed with ${SHUT_WITH[act.closure]}`;
    case 'addCulture':
      return cultureAdded(act, called, amount);
    case 'editCulture':
      return `${CULTURE_SORT_WORDS[act.sort]} described anew, called ${act.name}`;
    case 'feedCulture':
      return because(`${called(act.cultureId, 'culture')} fed`, act.text);
    case 'keepBatchFilter':
      return `filter “${act.name}” kept`;
    case 'editBatchFilter':
      return `filter changed, now called “${act.name}”`;
    case 'dropBatchFilter':
      return `filter ${called(act.filterId, 'of the Cellar Book')} taken away`;
    case 'startBatch':
      return batchStarted(act, vessel(act.vesselId), rules);
    case 'editBatch':
      return `leaf changed: called ${act.name}, ${FERMENT_KIND_WORDS[act.ferment]}`;
    case 'addTo':
      return `${ingredientText(act.ingredient, rules, amount(act.volumeUl), act.volumeUl)}${ofStrength(act)} added to ${vessel(act.vesselId)}`;
    case 'pitchYeast': {
      const yeast = act.yeast === '' ? called(act.cultureId, 'yeast') : act.yeast;
      const mass = act.massUg === null ? '' : `, ${sayMass(act.massUg, rules)}`;
      return `pitched ${yeast}${mass}, into ${vessel(act.vesselId)}`;
    }
    case 'recordReading':
      return `${readingPhrases(act.values, rules).join(', ')}, in ${vessel(act.vesselId)}`;
    case 'transfer':
      return transferred(act, vessel, amount);
    case 'seed':
      return seeded(act, called, amount);
    case 'changeStage':
      return because(`${vessel(act.vesselId)} moved on to ${STAGE_MARKS[act.stage].name}`, act.reason);
    case 'drawOff':
      return because(`drew off ${amount(act.volumeUl)} from ${vessel(act.vesselId)}`, act.purpose);
    case 'bottle': {
      const lost = act.lossUl === 0 ? '' : `, ${amount(act.lossUl)} lost`;
      const filled = `bottled ${counted(act.bottles, 'bottle')} of ${amount(act.bottleUl)} from ${vessel(act.vesselId)}`;
      return because(`${filled}${lost}`, act.note);
    }
    case 'discard':
      return because(`threw out ${amount(act.volumeUl)} from ${vessel(act.vesselId)}`, act.reason);
    case 'settleVolume':
      return `${vessel(act.vesselId)} set to ${amount(act.volumeUl)}, ${CAUSE_WORDS[act.cause]}`;
    case 'tellFacts':
      return `told of ${vessel(act.vesselId)}: ${Object.keys(act.facts).map(sayToldGroup).join(', ')}`;
    case 'heat':
      return because(
        `${vessel(act.vesselId)} heated to ${sayTemperature(act.reachedCelsius, rules)} for ${counted(act.minutes, 'minute')}`,
        act.note,
      );
    case 'overrule':
      return because(
        `a verdict on ${vessel(act.vesselId)} gone against (${sayUse(act.use).toLowerCase()})`,
        act.reason,
      );
    case 'note':
      return act.text;
    case 'addPhoto':
      return because(`photo of ${shown(act.about, called)}`, act.caption);
    case 'editCaption':
      return act.caption === '' ? 'caption of a photo taken away' : `caption of a photo: ${act.caption}`;
    case 'tasteNote': {
      const by = act.by === '' ? '' : ` by ${act.by}`;
      return `${shown(act.about, called)} tasted${by}: ${sayTasting(act)}`;
    }
    case 'split':
    case 'blend':
    case 'drawAndRefill':
    case 'sample':
    case 'filter':
    case 'cleanVessel':
    case 'lendVessel':
    case 'takeBottles':
    case 'returnBottles':
    case 'reconcile':
    case 'quarantine':
    case 'releaseBottles':
      return sayCellarWork(act, called, rules);
    case 'restate':
      return because(correctedInShort(act, entry.names, rules), act.reason);
    case 'reverse':
      return `${REVERSE_WORDS[act.how]}: ${reversedInShort(entry, rules)}`;
    default:
      return assertNever(act);
  }
}

/** The same line as a short noun phrase for a button or a bar: "reading 4.1 % on Jar 2", "start of Apple must 3". */
export function sayEntryShort(entry: EntrySaid, rules: Rules): string {
  const { act } = entry;
  const called = (id: string | null, otherwise: string): string =>
    (id === null ? null : entry.names[id]) ?? otherwise;
  const amount = (ul: number): string => sayVolume(ul, rules);
  switch (act.kind) {
    case 'addPlace':
      return `new place ${act.name}`;
    case 'editPlace':
      return `change to place ${act.name}`;
    case 'addShelf':
      return `new shelf ${act.letter}, ${act.name}`;
    case 'editShelf':
      return `change to shelf ${act.name}`;
    case 'addVessel':
      return `new vessel ${act.number}`;
    case 'editVessel':
      return `change to ${called(act.vesselId, 'a vessel')}`;
    case 'moveVessel':
      return `move of ${called(act.vesselId, 'a vessel')}`;
    case 'retireVessel':
      return `retiring ${called(act.vesselId, 'a vessel')}`;
    case 'changeClosure':
      return `closure of ${called(act.vesselId, 'a vessel')}`;
    case 'addCulture':
      return `new ${CULTURE_SORT_WORDS[act.sort]} ${act.name}`;
    case 'editCulture':
      return `change to ${act.name}`;
    case 'feedCulture':
      return `feeding ${called(act.cultureId, 'a culture')}`;
    case 'keepBatchFilter':
      return `filter “${act.name}”`;
    case 'editBatchFilter':
      return `change to the filter “${act.name}”`;
    case 'dropBatchFilter':
      return `taking away a filter`;
    case 'startBatch':
      return `start of ${act.name}`;
    case 'editBatch':
      return `change to the leaf of ${act.name}`;
    case 'addTo':
      return `adding ${act.ingredient.name} to ${called(act.vesselId, 'a vessel')}`;
    case 'pitchYeast':
      return `pitching yeast into ${called(act.vesselId, 'a vessel')}`;
    case 'recordReading':
      return `reading ${readingInShort(act.values, rules)} on ${called(act.vesselId, 'a vessel')}`;
    case 'transfer':
      return `transfer of ${amount(act.volumeUl)} to ${act.newBatch?.name ?? called(act.toVesselId, 'a vessel')}`;
    case 'seed':
      return `seeding ${called(act.vesselId, 'a vessel')}`;
    case 'changeStage':
      return `move of ${called(act.vesselId, 'a vessel')} to ${STAGE_MARKS[act.stage].name}`;
    case 'drawOff':
      return `drawing off ${amount(act.volumeUl)} from ${called(act.vesselId, 'a vessel')}`;
    case 'bottle':
      return `bottling ${counted(act.bottles, 'bottle')} from ${called(act.vesselId, 'a vessel')}`;
    case 'discard':
      return `throwing out ${amount(act.volumeUl)} from ${called(act.vesselId, 'a vessel')}`;
    case 'settleVolume':
      return `level of ${called(act.vesselId, 'a vessel')}`;
    case 'tellFacts':
      return `what was told of ${called(act.vesselId, 'a vessel')}`;
    case 'heat':
      return `heating ${called(act.vesselId, 'a vessel')}`;
    case 'overrule':
      return `going against a verdict on ${called(act.vesselId, 'a vessel')}`;
    case 'note':
      return `note "${cutTo(act.text, 40)}"`;
    case 'addPhoto':
      return act.caption === ''
        ? `photo of ${shown(act.about, called)}`
        : `photo "${cutTo(act.caption, 40)}"`;
    case 'editCaption':
      return 'caption of a photo';
    case 'tasteNote':
      return `tasting of ${shown(act.about, called)}`;
    case 'split':
    case 'blend':
    case 'drawAndRefill':
    case 'sample':
    case 'filter':
    case 'cleanVessel':
    case 'lendVessel':
    case 'takeBottles':
    case 'returnBottles':
    case 'reconcile':
    case 'quarantine':
    case 'releaseBottles':
      return sayCellarWorkShort(act, called, rules);
    case 'restate':
      return correctionInShort(act, entry.names, rules);
    case 'reverse':
      return `${REVERSE_NOUNS[act.how]} of ${reversedInShort(entry, rules)}`;
    default:
      return assertNever(act);
  }
}

/** What a reversal took back or brought back, named by the act at the bottom of the chain of reversals. */
function reversedInShort({ reversed }: Pick<EntryRow, 'reversed'>, rules: Rules): string {
  if (reversed === null) return 'an earlier line';
  return sayEntryShort({ act: reversed.act, names: reversed.names, reversed: null }, rules);
}

type Restated = ActOf<'restate'>;

/** A correction as it is done: what the one line now says, or how many lines were told anew and taken back. */
function correctedInShort({ corrections }: Restated, names: EntryRow['names'], rules: Rules): string {
  const [first, ...others] = corrections;
  const back = corrections.filter(({ act }) => act === null).length;
  if (first !== undefined && others.length === 0) {
    if (first.act === null) return '1 earlier line taken back';
    return `1 earlier line corrected, now ${sayEntryShort({ act: first.act, names, reversed: null }, rules)}`;
  }
  const retold = corrections.length - back;
  const parts = [
    ...(retold === 0 ? [] : [`${counted(retold, 'earlier line')} corrected`]),
    ...(back === 0 ? [] : [`${retold === 0 ? counted(back, 'earlier line') : String(back)} taken back`]),
  ];
  return parts.join(', ');
}

function correctionInShort({ corrections }: Restated, names: EntryRow['names'], rules: Rules): string {
  const [first, ...others] = corrections;
  if (first === undefined || first.act === null || others.length > 0) {
    return `correction of ${counted(corrections.length, 'earlier line')}`;
  }
  return `correction to ${sayEntryShort({ act: first.act, names, reversed: null }, rules)}`;
}

const CAUSE_WORDS = {
  evaporation: 'the rest went into the air',
  loss: 'the rest was lost',
  correction: 'the book corrected to what stands there',
} as const;
const REVERSE_WORDS = { undo: 'taken back', redo: 'done again', strike: 'struck through' } as const;
const REVERSE_NOUNS = { undo: 'undoing', redo: 'redoing', strike: 'striking' } as const;

type Called = (id: string | null, otherwise: string) => string;
type Amount = (ul: number) => string;

/** What a photo shows or a tasting is of. */
function shown(about: ActOf<'addPhoto'>['about'], called: Called): string {
  return about.kind === 'vessel' ? called(about.vesselId, 'a vessel') : called(about.batchId, 'this batch');
}

function cultureAdded(act: ActOf<'addCulture'>, called: Called, amount: Amount): string {
  const from = act.parentCultureId === null ? '' : ` from ${called(act.parentCultureId, 'another culture')}`;
  const stands =
    act.standing === null
      ? ''
      : `, ${amount(act.standing.volumeUl)} in ${called(act.standing.vesselId, 'a vessel')}`;
  return `${CULTURE_SORT_WORDS[act.sort]} ${act.name} added${from}${stands}`;
}

function batchStarted(act: ActOf<'startBatch'>, vessel: string, rules: Rules): string {
  const begun = `started ${act.name}: ${sayVolume(act.volumeUl, rules)} in ${vessel}`;
  const measured = act.measured === null ? [] : readingPhrases(act.measured, rules);
  const ingredients = act.ingredients.map((ingredient) => ingredientText(ingredient, rules, '', 0));
  const all = [begun, ...measured, ...(ingredients.length === 0 ? [] : [`with ${ingredients.join(', ')}`])];
  return act.note === '' ? all.join(', ') : `${all.join(', ')}. ${act.note}`;
}

function transferred(act: ActOf<'transfer'>, vessel: (id: string) => string, amount: Amount): string {
  const moved = `${amount(act.volumeUl)} moved from ${vessel(act.fromVesselId)} into ${vessel(act.toVesselId)}`;
  const lees = act.leesUl === 0 ? '' : `, ${amount(act.leesUl)} left as lees`;
  const renamed = act.newBatch === null ? '' : `, now ${act.newBatch.name}`;
  const staged = act.toStage === null ? '' : `, ${STAGE_MARKS[act.toStage].name}`;
  return `${moved}${lees}${renamed}${staged}`;
}

function seeded(act: ActOf<'seed'>, called: Called, amount: Amount): string {
  const source =
    act.cultureId !== null ? called(act.cultureId, 'a mother') : act.what === '' ? 'raw vinegar' : act.what;
  const much = act.volumeUl === 0 ? source : `${amount(act.volumeUl)} of ${source}`;
  const from = act.fromVesselId === null ? '' : ` from ${called(act.fromVesselId, 'a vessel')}`;
  return `${much} added${from} to ${called(act.vesselId, 'a vessel')}, ${STAGE_MARKS[act.toStage].name}`;
}

function madeOf(
  made: { readonly silhouette: Silhouette; readonly closure: Closure; readonly name: string },
  capacity: string,
): string {
  const named = made.name === '' ? '' : `, ${made.name}`;
  const shut = made.closure === 'open' ? 'open' : `with ${SHUT_WITH[made.closure]}`;
  return `${made.silhouette} of ${capacity}${named}, ${shut}`;
}

function ingredientText(ingredient: Ingredient, rules: Rules, volume: string, volumeUl: number): string {
  if (ingredient.amountTyped !== '') return `${ingredient.amountTyped} ${ingredient.name}`;
  if (ingredient.massUg !== null) return `${sayMass(ingredient.massUg, rules)} ${ingredient.name}`;
  return volumeUl === 0 ? ingredient.name : `${volume} ${ingredient.name}`;
}

function ofStrength({ alcoholPercentVolume }: ActOf<'addTo'>): string {
  return alcoholPercentVolume == null ? '' : ` of ${sayAlcohol(alcoholPercentVolume)}`;
}

function because(what: string, reason: string): string {
  return reason === '' ? what : `${what}: ${reason}`;
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

function cutTo(text: string, length: number): string {
  const line = text.split('\n')[0] ?? '';
  const letters = [...line];
  return letters.length <= length && line === text
    ? line
    : `${letters
        .slice(0, length - 1)
        .join('')
        .trimEnd()}…`;
}

function sentence(text: string): string {
  const first = text.slice(0, 1);
  const started = text.startsWith('pH') ? text : first.toUpperCase() + text.slice(1);
  return /[.!?…]$/u.test(started) ? started : `${started}.`;
}
