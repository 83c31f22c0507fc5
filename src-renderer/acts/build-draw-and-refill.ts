import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { stageOrNone } from './build-liquid.ts';
import type { FormReader } from './form-reader.ts';
import { NEW_BATCH_FIELDS, readNewBatch } from './new-batch.ts';

export const DRAW_AND_REFILL_FIELDS = {
  drawnAs: 'share',
  share: '',
  drawnUl: '',
  toVesselId: '',
  ...NEW_BATCH_FIELDS,
  toStage: '',
  fromVesselId: '',
  refillUl: '',
} as const;

/** A share as typed: `1/3`, `25 %`, `0.25`, `0,25`. Null when it is not read so; whether it makes sense is said apart. */
export function readShare(text: string): number | null {
  const plain = text.trim().replace(',', '.');
  const fraction = /^([0-9]{1,4}) ?\/ ?([0-9]{1,4})$/u.exec(plain);
  if (fraction) return Number(fraction[2]) === 0 ? null : Number(fraction[1]) / Number(fraction[2]);
  const percent = /^([0-9]{1,3}(?:\.[0-9]{1,4})?) ?(?:%|per ?cent)$/u.exec(plain);
  if (percent) return Number(percent[1]) / 100;
  return /^[0-9]?\.[0-9]{1,6}$/u.test(plain) ? Number(plain) : null;
}

/** What a share of a volume comes to, whole µL. */
export function shareUl(share: number, heldUl: number): number {
  return Math.round(share * heldUl);
}

export interface Drawing {
  readonly vesselId: VesselId;
  /** What stands in the vessel; null while that is not known yet. */
  readonly heldUl: number | null;
  readonly receiverHolds: boolean;
}

/** Drawing from a vessel and filling it up again from another. */
export function buildDrawAndRefill(read: FormReader, drawing: Drawing): ActDraft {
  const drawnUl = read.raw('drawnAs') === 'share' ? readDrawnShare(read, drawing) : read.volume('drawnUl');
  const toVesselId = read.idOrNone<VesselId>('toVesselId');
  const newBatch = toVesselId === null ? null : readNewBatch(read, '', drawing.receiverHolds);
  const toStage = toVesselId === null ? null : stageOrNone(read, 'toStage');
  const fromVesselId = read.id<VesselId>('fromVesselId', 'Choose the vessel it is refilled from.');
  const refillUl = read.volume('refillUl');
  read.when();
  const { vesselId } = drawing;
  return { kind: 'drawAndRefill', vesselId, drawnUl, toVesselId, newBatch, toStage, fromVesselId, refillUl };
}

function readDrawnShare(read: FormReader, { heldUl }: Drawing): number {
  const text = read.raw('share');
  const share = readShare(text);
  if (text === '') read.problem('share', 'Say which share is drawn, for instance 1/3 or 25 %.');
  else if (share === null) {
    read.problem('share', `“${text.slice(0, 40)}” is not read as a share. Write it as 1/3, 25 % or 0.25.`);
  } else if (share <= 0 || share >= 1) {
    read.problem('share', 'A share lies between nothing and all: something is drawn, and something stays.');
  } else if (heldUl !== null && shareUl(share, heldUl) === 0) {
    read.problem('share', 'That share comes to nothing. Draw more.');
  }
  read.typed['share'] = text;
  return heldUl === null || share === null ? 1 : Math.max(1, shareUl(share, heldUl));
}
