import type { ActDraft } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { stageOrNone } from './build-liquid.ts';
import type { FormReader } from './form-reader.ts';

export const LOT_WAYS = {
  opened: 'opened',
  given: 'given away',
  broken: 'broken',
  returned: 'emptied back',
} as const;
export type LotWay = keyof typeof LOT_WAYS;

export const LOT_FIELDS = {
  bottles: '1',
  holder: '',
  toVesselId: '',
  lossUl: '',
  toStage: '',
  note: '',
} as const;

/** What became of bottles of a lot: opened, given to somebody, broken, or emptied back into a vessel. */
export function buildLot(read: FormReader, lotId: EntryId): ActDraft {
  const how = read.choice('how', LOT_WAYS, 'Say what became of them.');
  const bottles = read.whole('bottles', { low: 1, high: 10_000, what: 'number of bottles' });
  if (how === 'returned') {
    const toVesselId = read.id<VesselId>('toVesselId', 'Choose the vessel they are emptied into.');
    const lossUl = read.volumeOrNone('lossUl');
    const toStage = stageOrNone(read, 'toStage');
    const note = read.note('note');
    read.when();
    return { kind: 'returnBottles', lotId, bottles, toVesselId, lossUl, toStage, note };
  }
  const holder = how === 'given' ? read.name('holder', 'Say to whom they were given.') : '';
  const note = read.note('note');
  read.when();
  return { kind: 'takeBottles', lotId, bottles, how, holder, note };
}
