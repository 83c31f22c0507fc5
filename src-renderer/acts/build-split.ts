import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { Said } from '../words/error-words.ts';
import { exactVolumeText, sayVolume } from '../words/quantity-words.ts';
import { stageOrNone } from './build-liquid.ts';
import type { FormReader } from './form-reader.ts';
import { readNewBatch } from './new-batch.ts';
import { partCount, partField } from './numbered-rows.ts';

/** More parts than this go into the book as a second split. */
export const SPLIT_PARTS = { low: 1, high: 24 } as const;
/** The fields of one part besides its vessel. */
export const SPLIT_PART_TEXTS = ['volumeUl', 'batch', 'newName', 'newFerment', 'toStage'] as const;
export const SPLIT_FIELDS = { fromVesselId: '', leesUl: '', parts: '2' } as const;

/** Parting one liquid into several vessels. `receiverHolds` says of each part whether something stands in its vessel. */
export function buildSplit(read: FormReader, receiverHolds: (part: number) => boolean): ActDraft {
  const fromVesselId = read.id<VesselId>('fromVesselId', 'Choose the vessel to pour from.');
  const leesUl = read.volumeOrNone('leesUl');
  const parts = Array.from({ length: partCount(read.form.fields, SPLIT_PARTS) }, (_, part) => {
    const at = (field: string): string => partField(part, field);
    const toVesselId = read.id<VesselId>(
      at('toVesselId'),
      'Choose the vessel this part goes into, or take the part away.',
    );
    const again = Array.from({ length: part }, (__, earlier) =>
      read.raw(partField(earlier, 'toVesselId')),
    ).includes(toVesselId);
    if (toVesselId !== '' && again) {
      read.problem(at('toVesselId'), 'An earlier part goes into this vessel already. Choose another.');
    } else if (toVesselId !== '' && toVesselId === fromVesselId) {
      read.problem(at('toVesselId'), 'This is the vessel that is poured from. Choose another.');
    }
    const volumeUl = read.volume(at('volumeUl'));
    const newBatch = readNewBatch(read, at(''), receiverHolds(part));
    return { toVesselId, volumeUl, newBatch, toStage: stageOrNone(read, at('toStage')) };
  });
  read.when();
  return { kind: 'split', fromVesselId, leesUl, parts };
}

/** What a split comes to so far. */
export interface Parted {
  readonly heldUl: number;
  readonly partsUl: readonly number[];
  readonly leesUl: number;
}

/** What stays in the vessel that is poured from; less than nothing when the parts come to more than it holds. */
export function restUl({ heldUl, partsUl, leesUl }: Parted): number {
  return partsUl.reduce((left, partUl) => left - partUl, heldUl - leesUl);
}

/** The same as a sentence below the parts. */
export function sayRest(parted: Parted, house: HouseUnits): string {
  const rest = restUl(parted);
  const goesUl = parted.partsUl.reduce((sum, partUl) => sum + partUl, 0);
  const count = parted.partsUl.filter((partUl) => partUl > 0).length;
  const goes = `${sayVolume(goesUl, house)} in ${count} ${count === 1 ? 'part' : 'parts'}`;
  const lees = parted.leesUl === 0 ? '' : `, ${sayVolume(parted.leesUl, house)} as lees`;
  if (rest < 0) {
    return `${goes}${lees}: ${sayVolume(-rest, house)} more than the ${sayVolume(parted.heldUl, house)} that stand there.`;
  }
  return `${goes}${lees}; ${rest === 0 ? 'nothing stays, the vessel is then empty' : `${sayVolume(rest, house)} stays where it is`}.`;
}

/** A split asks for more than there is: said of the last part, with what is left for it. */
export function refitSplit(refusal: LedgerError, parted: Parted, house: HouseUnits): Said | null {
  if (refusal.type !== 'VesselOverdrawn') return null;
  const overUl = -restUl(parted);
  const lastUl = (parted.partsUl.at(-1) ?? 0) - overUl;
  const text = exactVolumeText(Math.max(0, lastUl), house);
  return {
    sentence: `Vessel ${refusal.vesselNumber} holds ${sayVolume(refusal.heldUl, house)}; the parts${parted.leesUl === 0 ? '' : ' and the lees'} come to ${sayVolume(refusal.wantedUl, house)}. Take ${sayVolume(refusal.wantedUl - refusal.heldUl, house)} away.`,
    fixes: lastUl > 0 ? [{ label: `Use ${text}`, text, how: 'use' }] : [],
  };
}
