import type { BottleLot } from '#core/contract/book.ts';
import type { Pedigree, PedigreeRoot } from '#core/contract/pedigree.ts';
import type { BookFinding } from '#core/contract/shelves.ts';
import type { ActOf } from '#core/ledger/act.ts';
import type { BatchId, CultureId, EntryId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { LotWay } from './build-lot.ts';
import type { Again } from './make-again.ts';

/** Which act a screen asks to be filled in, and what is already known of it. Nothing is written by asking. */
export type ActRequest =
  /** `prefill` is a line of readings as typed, such as `1.012 19C`. */
  | {
      readonly kind: 'reading';
      readonly vesselId?: VesselId | undefined;
      readonly prefill?: string | undefined;
    }
  | { readonly kind: 'addPlace' }
  | { readonly kind: 'editPlace'; readonly placeId: PlaceId }
  | { readonly kind: 'addShelf'; readonly placeId?: PlaceId | undefined }
  | { readonly kind: 'editShelf'; readonly shelfId: ShelfId }
  | {
      readonly kind: 'addVessel';
      readonly shelfId?: ShelfId | null | undefined;
      readonly position?: number | null | undefined;
    }
  | { readonly kind: VesselActKind; readonly vesselId: VesselId }
  /** Answers to what the rules of a use ask. */
  | { readonly kind: 'tell'; readonly vesselId: VesselId; readonly use: string }
  /** Going against the verdict of a use, with a reason. */
  | { readonly kind: 'overrule'; readonly vesselId: VesselId; readonly use: string }
  /** Titrating several vessels in one sitting. */
  | { readonly kind: 'evening'; readonly vesselIds?: readonly VesselId[] | undefined }
  | {
      readonly kind: 'transfer';
      readonly fromVesselId?: VesselId | undefined;
      readonly toVesselId?: VesselId | undefined;
    }
  /** One liquid into several vessels. */
  | {
      readonly kind: 'split';
      readonly fromVesselId?: VesselId | undefined;
      readonly toVesselIds?: readonly VesselId[] | undefined;
    }
  /** Several liquids into one vessel. */
  | {
      readonly kind: 'blend';
      readonly fromVesselIds?: readonly VesselId[] | undefined;
      readonly toVesselId?: VesselId | undefined;
    }
  /** A line of the book whose own form cannot be filled in again: its vessel, its time, its amounts and words. */
  | { readonly kind: 'correct'; readonly entryId: EntryId }
  /** What became of bottles; `lotId` is the line that filled them. */
  | {
      readonly kind: 'bottles';
      readonly batchId: BatchId;
      readonly lotId: EntryId;
      readonly how: LotWay;
    }
  /** Everything a thing ever touched, as it was shown, kept apart at once. */
  | { readonly kind: 'keepApart'; readonly of: PedigreeRoot; readonly pedigree: Pedigree }
  /** Bottles that were kept apart may be used again. */
  | { readonly kind: 'release'; readonly lot: BottleLot }
  /** What a reading finds against the book, written into it. */
  | { readonly kind: 'reconcile'; readonly vesselId: VesselId; readonly finding: BookFinding }
  | {
      readonly kind: 'seed';
      readonly vesselId?: VesselId | undefined;
      readonly cultureId?: CultureId | undefined;
    }
  | {
      readonly kind: 'startBatch';
      readonly vesselId?: VesselId | undefined;
      readonly name?: string | undefined;
      /** The batch that is made again, as its leaf tells it. */
      readonly again?: Again | undefined;
    }
  | { readonly kind: 'editBatch'; readonly batchId: BatchId }
  | { readonly kind: 'note'; readonly about: ActOf<'note'>['about'] }
  /** Pictures that were dropped or pasted may come with it. */
  | {
      readonly kind: 'addPhotos';
      readonly about: ActOf<'addPhoto'>['about'];
      readonly files?: readonly File[] | undefined;
    }
  | { readonly kind: 'editCaption'; readonly photoId: EntryId; readonly caption: string }
  | { readonly kind: 'taste'; readonly about: ActOf<'tasteNote'>['about'] }
  | { readonly kind: 'addCulture'; readonly parentCultureId?: CultureId | undefined }
  | { readonly kind: 'editCulture' | 'feedCulture'; readonly cultureId: CultureId };

/** Acts that are asked for of one vessel and need nothing else to begin with. */
export type VesselActKind =
  | 'editVessel'
  | 'moveVessel'
  | 'retireVessel'
  | 'changeStage'
  | 'changeClosure'
  | 'pitchYeast'
  | 'addTo'
  | 'drawOff'
  | 'bottle'
  | 'discard'
  | 'settleVolume'
  | 'drawAndRefill'
  | 'sample'
  | 'filter'
  | 'cleanVessel'
  | 'lendVessel'
  | 'look'
  | 'heat'
  | 'titrate';

/** The requests that may have one of these kinds. */
export type RequestOf<Kind extends ActRequest['kind']> = ActRequest extends infer Each
  ? Each extends { readonly kind: infer Its }
    ? [Its & Kind] extends [never]
      ? never
      : Each
    : never
  : never;

/** The name under which a half-filled form of this request is kept: one for each act and subject. */
export function draftKey(request: ActRequest): string {
  const subject = Object.entries(request)
    .filter(([field, value]) => field !== 'kind' && field !== 'prefill' && value !== undefined)
    .map(([field, value]: [string, unknown]): unknown =>
      field === 'again' ? `again ${(value as Again | undefined)?.batchId ?? ''}` : value,
    )
    .map((value) => (typeof value === 'object' && value !== null ? JSON.stringify(value) : String(value)))
    .join(':');
  return subject === '' ? request.kind : `${request.kind}:${subject}`;
}
