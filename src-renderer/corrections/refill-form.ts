import type { EntryRow } from '#core/contract/ledger.ts';
import { NOTHING_READ, type Act, type ActOf } from '#core/ledger/act.ts';
import type { ActRequest } from '../acts/act-request.ts';
import { ADDITIONS } from '../acts/build-liquid.ts';
import { CORRECTED_VESSEL, vesselOf } from '../acts/correcting.ts';
import { partField } from '../acts/numbered-rows.ts';
import { asItReads } from './as-it-reads.ts';
import { RefillFields, type Refilling } from './refill-fields.ts';
import { isTitrated, refillReading, refillTitrated } from './refill-readings.ts';
import { refillPlain } from './refill-plain.ts';

/** The form in which a line is corrected, and what its fields begin with. */
export interface Refilled {
  readonly request: ActRequest;
  readonly fields: Readonly<Record<string, string>>;
}

type Given = Omit<Refilling, 'typed'>;

/**
 * The very form of a line's act, filled in with what the line says; null for an act whose form cannot be: what it asks goes
 * by what stands in the vessel now, not then.
 */
export function refillOwnForm(entry: EntryRow, given: Given): Refilled | null {
  const { act, happenedAtMs, typed } = asItReads(entry);
  const fields = new RefillFields({ ...given, typed });
  const request = refill(fields, act);
  if (request === null) return null;
  // Where the form takes the vessel for given, it is asked beside.
  const vesselId = vesselOf(act);
  const asksVessel = fields.texts['vesselId'] !== undefined || act.kind === 'addVessel';
  if (vesselId !== null && !asksVessel) fields.text(CORRECTED_VESSEL, vesselId);
  fields.when('happenedAtMs', happenedAtMs);
  return { request, fields: fields.texts };
}

/** A small form for any line: its vessel, its time, and what amounts and words it holds. */
export function refillSmallForm(entry: EntryRow, given: Given): Refilled {
  const { act, happenedAtMs, typed } = asItReads(entry);
  const fields = new RefillFields({ ...given, typed });
  refillPlain(fields, act);
  const vesselId = vesselOf(act);
  if (vesselId !== null && act.kind !== 'addVessel') fields.text(CORRECTED_VESSEL, vesselId);
  fields.when('happenedAtMs', happenedAtMs);
  return { request: { kind: 'correct', entryId: entry.entryId }, fields: fields.texts };
}

function refill(fields: RefillFields, act: Act): ActRequest | null {
  switch (act.kind) {
    case 'recordReading':
      if (isTitrated(act.values)) {
        refillTitrated(fields, act.values);
        return { kind: 'titrate', vesselId: act.vesselId };
      }
      refillReading(fields, act.values);
      fields.text('vesselId', act.vesselId);
      return { kind: 'reading' };
    case 'addPlace':
      fields.texted({ name: act.name, note: act.note, shelfCount: '0', positions: '8' });
      return { kind: 'addPlace' };
    case 'editPlace':
      fields.texted({ name: act.name, note: act.note });
      return { kind: 'editPlace', placeId: act.placeId };
    case 'addShelf':
      fields.texted({ placeId: act.placeId, name: act.name, count: '1', positions: String(act.positions) });
      return { kind: 'addShelf', placeId: act.placeId };
    case 'editShelf':
      fields.texted({ name: act.name, positions: String(act.positions) });
      return { kind: 'editShelf', shelfId: act.shelfId };
    case 'addVessel':
      refillVessel(fields, act);
      fields.texted({ ...standing(act), count: '1' });
      return { kind: 'addVessel', shelfId: act.shelfId, position: act.position };
    case 'editVessel':
      refillVessel(fields, act);
      return { kind: act.kind, vesselId: act.vesselId };
    case 'moveVessel':
      fields.texted(standing(act));
      return { kind: act.kind, vesselId: act.vesselId };
    case 'addCulture':
      return refillCulture(fields, act);
    case 'editCulture':
      fields.texted({ name: act.name, sort: act.sort, source: act.source, note: act.note });
      return { kind: act.kind, cultureId: act.cultureId };
    case 'feedCulture':
      fields.text('text', act.text);
      return { kind: act.kind, cultureId: act.cultureId };
    case 'editBatch':
      fields.texted({ name: act.name, ferment: act.ferment, note: act.note });
      return { kind: act.kind, batchId: act.batchId };
    case 'note':
      fields.text('text', act.text);
      return { kind: 'note', about: act.about };
    case 'startBatch':
      return refillStart(fields, act);
    case 'seed':
      return refillSeed(fields, act);
    case 'tasteNote':
      fields.texted({ words: act.words.join(' '), text: act.text, by: act.by });
      fields.text('score', act.score === null ? '' : String(act.score));
      return { kind: 'taste', about: act.about };
    case 'editCaption':
      fields.text('caption', act.caption);
      return { kind: 'editCaption', photoId: act.photoId, caption: act.caption };
    default:
      return refillLiquid(fields, act);
  }
}

/** Acts on what stands in a vessel. */
function refillLiquid(fields: RefillFields, act: Act): ActRequest | null {
  switch (act.kind) {
    case 'addTo': {
      const { name } = act.ingredient;
      const isPlain = name === ADDITIONS[act.what] && act.what !== 'other';
      fields.texted({ what: act.what, ingredient: isPlain ? '' : name });
      fields.amount('amount', act.ingredient, act.volumeUl);
      const rises = fields.valueOf('volume', fields.texts['amount'] ?? '') === null;
      fields.volume('volumeUl', rises ? act.volumeUl : 0);
      fields.quantity('alcohol', 'alcoholPercentVolume', act.alcoholPercentVolume ?? null);
      fields.cost('cost', act.ingredient.costHundredths);
      return { kind: act.kind, vesselId: act.vesselId };
    }
    case 'pitchYeast':
      fields.texted({ source: act.cultureId === null ? 'packet' : 'culture' });
      fields.texted({ cultureId: act.cultureId, yeast: act.yeast });
      fields.quantity('mass', 'massUg', act.massUg);
      return { kind: act.kind, vesselId: act.vesselId };
    case 'transfer':
      fields.texted({ fromVesselId: act.fromVesselId, toVesselId: act.toVesselId, toStage: act.toStage });
      fields.volume('volumeUl', act.volumeUl);
      fields.volume('leesUl', act.leesUl);
      newBatch(fields, '', act.newBatch, 'same');
      return { kind: 'transfer' };
    case 'split':
      fields.texted({ fromVesselId: act.fromVesselId, parts: String(act.parts.length) });
      fields.volume('leesUl', act.leesUl);
      act.parts.forEach((part, i) => {
        fields.texted({ [partField(i, 'toVesselId')]: part.toVesselId });
        fields.text(partField(i, 'toStage'), part.toStage);
        fields.volume(partField(i, 'volumeUl'), part.volumeUl);
        newBatch(fields, partField(i, ''), part.newBatch, '');
      });
      return { kind: 'split' };
    case 'blend':
      fields.texted({ toVesselId: act.toVesselId, parts: String(act.parts.length), toStage: act.toStage });
      act.parts.forEach((part, i) => {
        fields.text(partField(i, 'fromVesselId'), part.fromVesselId);
        fields.volume(partField(i, 'volumeUl'), part.volumeUl);
      });
      newBatch(fields, '', act.newBatch, '');
      return { kind: 'blend' };
    case 'drawAndRefill':
      fields.texted({ drawnAs: 'volume', share: '', toVesselId: act.toVesselId });
      fields.texted({ fromVesselId: act.fromVesselId, toStage: act.toStage });
      fields.volume('drawnUl', act.drawnUl);
      fields.volume('refillUl', act.refillUl);
      newBatch(fields, '', act.newBatch, '');
      return { kind: act.kind, vesselId: act.vesselId };
    case 'changeStage':
      fields.texted({ stage: act.stage, reason: act.reason });
      return { kind: act.kind, vesselId: act.vesselId };
    case 'changeClosure':
      fields.texted({ closure: act.closure, lid: '' });
      return { kind: act.kind, vesselId: act.vesselId };
    case 'drawOff':
      fields.volume('volumeUl', act.volumeUl);
      fields.text('purpose', act.purpose);
      return { kind: act.kind, vesselId: act.vesselId };
    case 'discard':
      fields.volume('volumeUl', act.volumeUl);
      fields.text('reason', act.reason);
      return { kind: act.kind, vesselId: act.vesselId };
    case 'bottle':
      fields.volume('bottleUl', act.bottleUl);
      fields.volume('lossUl', act.lossUl);
      fields.texted({ bottles: String(act.bottles), note: act.note });
      return { kind: act.kind, vesselId: act.vesselId };
    case 'settleVolume':
      fields.volume('volumeUl', act.volumeUl);
      fields.text('cause', act.cause);
      return { kind: act.kind, vesselId: act.vesselId };
    case 'sample':
      fields.volume('volumeUl', act.volumeUl);
      fields.texted({ purpose: act.purpose, note: act.note });
      return { kind: act.kind, vesselId: act.vesselId };
    case 'filter':
      fields.volume('lossUl', act.lossUl);
      fields.texted({ how: act.how, note: act.note });
      return { kind: act.kind, vesselId: act.vesselId };
    case 'cleanVessel':
      fields.texted({ how: act.how, note: act.note });
      fields.when('restUntilMs', act.restUntilMs);
      return { kind: act.kind, vesselId: act.vesselId };
    case 'lendVessel':
      fields.texted({ where: act.holder === '' ? 'back' : 'other', holder: act.holder, note: act.note });
      return { kind: act.kind, vesselId: act.vesselId };
    case 'retireVessel':
      fields.text('reason', act.reason);
      return { kind: act.kind, vesselId: act.vesselId };
    default:
      return null;
  }
}

function refillStart(fields: RefillFields, act: ActOf<'startBatch'>): ActRequest {
  // A start says its volume as such; there is no level read beside it.
  refillReading(fields, { ...NOTHING_READ, ...act.measured, volumeUl: null });
  fields.texted({ name: act.name, ferment: act.ferment, vesselId: act.vesselId, note: act.note });
  fields.volume('volumeUl', act.volumeUl);
  act.ingredients.forEach((ingredient, i) => {
    fields.text(`ingredient${i}`, ingredient.name);
    fields.amount(`amount${i}`, ingredient);
    fields.cost(`cost${i}`, ingredient.costHundredths);
  });
  return { kind: 'startBatch' };
}

function refillSeed(fields: RefillFields, act: ActOf<'seed'>): ActRequest {
  fields.texted({
    vesselId: act.vesselId,
    source: act.cultureId === null ? 'bought' : 'culture',
    cultureId: act.cultureId,
    fromVesselId: act.fromVesselId,
    what: act.what,
    toStage: act.toStage,
  });
  fields.volume('volumeUl', act.volumeUl);
  return { kind: 'seed' };
}

function refillCulture(fields: RefillFields, act: ActOf<'addCulture'>): ActRequest {
  fields.texted({
    name: act.name,
    sort: act.sort,
    parentCultureId: act.parentCultureId,
    source: act.source,
    note: act.note,
    vesselId: act.standing?.vesselId ?? null,
  });
  fields.volume('volumeUl', act.standing?.volumeUl ?? 0);
  return { kind: 'addCulture' };
}

function refillVessel(fields: RefillFields, act: ActOf<'addVessel' | 'editVessel'>): void {
  const { name, silhouette, mouth, material, closure, note } = act;
  fields.texted({ name, silhouette, mouth, material, closure, note });
  fields.volume('capacityUl', act.capacityUl);
}

function standing(act: ActOf<'addVessel' | 'moveVessel'>): Record<string, string> {
  return { shelfId: act.shelfId ?? '', position: act.position === null ? '' : String(act.position) };
}

function newBatch(
  fields: RefillFields,
  prefix: string,
  batch: ActOf<'transfer'>['newBatch'],
  same: string,
): void {
  fields.texted({
    [`${prefix}batch`]: batch === null ? same : 'own',
    [`${prefix}newName`]: batch?.name ?? '',
    [`${prefix}newFerment`]: batch?.ferment ?? '',
  });
}
