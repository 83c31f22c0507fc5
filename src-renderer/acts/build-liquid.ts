import type { ActDraft } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { FilledStage } from '#core/ledger/stage.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import type { Said } from '../words/error-words.ts';
import { exactVolumeText, sayVolume } from '../words/quantity-words.ts';
import type { FormReader } from './form-reader.ts';
import { readCost } from './read-cost.ts';

export const TRANSFER_FIELDS = {
  fromVesselId: '',
  toVesselId: '',
  volumeUl: '',
  leesUl: '',
  batch: 'same',
  newName: '',
  newFerment: '',
  toStage: '',
} as const;

/** Racking or moving liquid. `receiverHolds` says whether something stands in the receiver, which then is blended. */
export function buildTransfer(read: FormReader, given: { readonly receiverHolds: boolean }): ActDraft {
  const fromVesselId = read.id<VesselId>('fromVesselId', 'Choose the vessel to pour from.');
  const toVesselId = read.id<VesselId>('toVesselId', 'Choose the vessel to pour into.');
  const volumeUl = read.volume('volumeUl');
  const leesUl = read.volumeOrNone('leesUl');
  const isOwn = read.raw('batch') === 'own' && !given.receiverHolds;
  const newBatch = isOwn
    ? {
        name: read.name('newName', 'Name the new batch.'),
        ferment: read.choice('newFerment', FERMENT_KIND_WORDS, 'Say what the new batch is.'),
      }
    : null;
  const toStage = stageOrNone(read, 'toStage');
  read.when();
  return { kind: 'transfer', fromVesselId, toVesselId, volumeUl, leesUl, newBatch, toStage };
}

/** A refusal for want of liquid, in words that know what is left behind as lees. */
export function refitTransfer(refusal: LedgerError, leesUl: number, house: HouseUnits): Said | null {
  if (refusal.type !== 'VesselOverdrawn' || leesUl === 0) return null;
  const mostUl = refusal.heldUl - leesUl;
  const held = `Vessel ${refusal.vesselNumber} holds ${sayVolume(refusal.heldUl, house)}, of which ${sayVolume(leesUl, house)} is to stay as lees.`;
  if (mostUl <= 0) return { sentence: `${held} That leaves nothing to pour. Leave less behind.`, fixes: [] };
  const text = exactVolumeText(mostUl, house);
  return {
    sentence: `${held} At most ${sayVolume(mostUl, house)} can be poured off.`,
    fixes: [{ label: `Use ${text}`, text, how: 'use' }],
  };
}

export function buildDrawOff(read: FormReader, vesselId: VesselId): ActDraft {
  const volumeUl = read.volume('volumeUl');
  const purpose = read.note('purpose');
  read.when();
  return { kind: 'drawOff', vesselId, volumeUl, purpose };
}

export function buildDiscard(read: FormReader, vesselId: VesselId): ActDraft {
  const volumeUl = read.volume('volumeUl');
  const reason = read.note('reason');
  if (reason === '') read.problem('reason', 'Say why it is thrown out; the book keeps the reason.');
  read.when();
  return { kind: 'discard', vesselId, volumeUl, reason };
}

const BOTTLES = { low: 1, high: 10_000, what: 'number of bottles' };

export function buildBottle(read: FormReader, vesselId: VesselId): ActDraft {
  const bottles = read.whole('bottles', BOTTLES);
  const bottleUl = read.volume('bottleUl');
  const lossUl = read.volumeOrNone('lossUl');
  const note = read.note('note');
  read.when();
  return { kind: 'bottle', vesselId, bottles, bottleUl, lossUl, note };
}

/** How many bottles a volume fills, whole ones only. */
export function bottlesFilled(given: {
  readonly heldUl: number;
  readonly lossUl: number;
  readonly bottleUl: number;
}): number {
  const { heldUl, lossUl, bottleUl } = given;
  return bottleUl <= 0 ? 0 : Math.max(0, Math.min(BOTTLES.high, Math.floor((heldUl - lossUl) / bottleUl)));
}

export const SETTLE_CAUSES = {
  evaporation: 'gone into the air',
  loss: 'spilled or lost',
  correction: 'the book was wrong',
} as const;

/** What each cause does to what stays, said below the choice. */
export const SETTLE_HINTS: Readonly<Record<keyof typeof SETTLE_CAUSES, string>> = {
  evaporation:
    'Water and alcohol went into the air. Sugar, acid and salt stay, so there is more of them in each litre left.',
  loss: 'Some of the liquid is gone as it was. What is left is as strong as before.',
  correction: 'It was never there. What is left is as strong as before, and nothing is counted as lost.',
};

/** `bookUl` is what the book says stands there; null while that is not known yet. */
export function buildSettle(read: FormReader, vesselId: VesselId, bookUl: number | null): ActDraft {
  const volumeUl = read.volume('volumeUl');
  const isMore = bookUl !== null && volumeUl > bookUl;
  const cause = isMore ? 'correction' : read.choice('cause', SETTLE_CAUSES, 'Say where the difference went.');
  if (volumeUl === bookUl && read.problems.length === 0) {
    read.problem('volumeUl', 'This is what the book says already, so there is nothing to settle.');
  }
  read.when();
  return { kind: 'settleVolume', vesselId, volumeUl, cause };
}

export const ADDITIONS = {
  water: 'water',
  juice: 'juice',
  sugar: 'sugar',
  honey: 'honey',
  fruit: 'fruit',
  spirit: 'spirit',
  salt: 'salt',
  acid: 'acid',
  sulfite: 'sulfite',
  nutrient: 'yeast nutrient',
  other: 'something else',
} as const;

/**
 * Adding to what stands in a vessel. An amount typed as a volume raises the level by itself; for a weight the keeper
 * may say how far the level rises.
 */
export function buildAddTo(read: FormReader, vesselId: VesselId): ActDraft {
  const what = read.choice('what', ADDITIONS, 'Say what goes in.');
  const named = read.line('ingredient');
  const name = named === '' ? ADDITIONS[what] : named;
  if (named === '' && what === 'other') read.problem('ingredient', 'Name what goes in.');
  const amountTyped = read.line('amount', 60);
  const asVolume = read.quantityIfSound('volume', 'amount');
  const asMass = asVolume === null ? read.quantityIfSound('mass', 'amount') : null;
  if (amountTyped === '') read.problem('amount', 'Say how much, for instance 500 g, 2 L or 3 tsp.');
  const isLiquid = what === 'water' || what === 'juice' || what === 'spirit';
  if (amountTyped !== '' && isLiquid && asVolume === null) {
    read.problem(
      'amount',
      `${amountTyped} is not read as a volume. Write it with its unit, for instance 2 L.`,
    );
  }
  const rise = asVolume === null ? read.volumeOrNone('volumeUl') : asVolume.volumeUl;
  read.when();
  const ingredient = { name, amountTyped, massUg: asMass?.massUg ?? null, ...readCost(read, 'cost') };
  const strength = what === 'spirit' ? spiritStrength(read, 'alcoholPercentVolume') : null;
  const told = strength === null ? {} : { alcoholPercentVolume: strength };
  return { kind: 'addTo', vesselId, what, ingredient, volumeUl: rise, ...told };
}

/** A spirit's strength in % vol, up to pure alcohol; null when it was not told. */
function spiritStrength(read: FormReader, field: string): number | null {
  const sample = '40 %';
  const strength = read.number(field, { units: /^% ?(?:vol\.?|abv)?$/iu, sample });
  if (strength === null || (strength > 0 && strength <= 100)) return strength;
  read.problem(field, 'A strength is more than 0 and at most 100 % vol.');
  return null;
}

export function buildChangeStage(read: FormReader, vesselId: VesselId): ActDraft {
  const stage = stageOrNone(read, 'stage');
  if (stage === null) read.problem('stage', 'Choose the stage it goes into.');
  const reason = read.note('reason');
  read.when();
  return { kind: 'changeStage', vesselId, stage: stage ?? 'held', reason };
}

export function stageOrNone(read: FormReader, field: string): FilledStage | null {
  const { empty: _empty, ...filled } = STAGE_MARKS;
  return read.choiceOrNone(field, filled);
}
