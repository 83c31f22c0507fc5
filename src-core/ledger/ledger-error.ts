import { z } from 'zod';
import { EntryId } from './ids.ts';
import { COMPONENTS } from './masses.ts';
import { Closure, FilledStage } from './stage.ts';

/** Why the book refuses an act. Facts only; the words are the renderer's. Nothing is written when one is returned. */
const PLAIN = [
  z.object({ type: z.literal('NotFound'), field: z.string(), what: z.string(), id: z.string() }),
  z.object({ type: z.literal('VesselEmpty'), field: z.string(), vesselNumber: z.int() }),
  z.object({ type: z.literal('VesselNotEmpty'), field: z.string(), vesselNumber: z.int(), holdsUl: z.int() }),
  z.object({ type: z.literal('VesselRetired'), field: z.string(), vesselNumber: z.int() }),
  z.object({
    type: z.literal('VesselOverdrawn'),
    field: z.string(),
    vesselNumber: z.int(),
    heldUl: z.int(),
    wantedUl: z.int(),
  }),
  z.object({
    type: z.literal('VesselOverfilled'),
    field: z.string(),
    vesselNumber: z.int(),
    roomUl: z.int(),
    wantedUl: z.int(),
  }),
  z.object({
    type: z.literal('CapacityBelowContents'),
    field: z.string(),
    heldUl: z.int(),
    capacityUl: z.int(),
  }),
  z.object({ type: z.literal('SameVessel'), field: z.string() }),
  z.object({
    type: z.literal('PositionTaken'),
    field: z.string(),
    position: z.int(),
    byVesselNumber: z.int(),
  }),
  z.object({ type: z.literal('PositionOffShelf'), field: z.string(), position: z.int(), positions: z.int() }),
  z.object({
    type: z.literal('ShelfTooShort'),
    field: z.string(),
    positions: z.int(),
    highestInUse: z.int(),
  }),
  z.object({ type: z.literal('AlreadyTaken'), field: z.string(), what: z.string(), value: z.string() }),
  z.object({ type: z.literal('NothingToAdd'), field: z.string() }),
  z.object({ type: z.literal('NewBatchIntoOccupied'), field: z.string(), vesselNumber: z.int() }),
  z.object({ type: z.literal('WouldEmpty'), field: z.string(), vesselNumber: z.int() }),
  z.object({ type: z.literal('SameHolder'), field: z.string(), holder: z.string() }),
  z.object({ type: z.literal('TooFewBottles'), field: z.string(), left: z.int(), wanted: z.int() }),
  z.object({ type: z.literal('LotShort'), field: z.string(), leftUl: z.int(), wantedUl: z.int() }),
  z.object({
    type: z.literal('MassShort'),
    field: z.string(),
    component: z.enum(COMPONENTS),
    heldUg: z.int(),
    wantedUg: z.int(),
  }),
  /** More of a component in one vessel than the book counts exactly. */
  z.object({ type: z.literal('TooHeavy'), field: z.string(), mostUg: z.int() }),
  z.object({ type: z.literal('SameStage'), field: z.string(), stage: FilledStage }),
  z.object({ type: z.literal('SameClosure'), field: z.string(), closure: Closure }),
  z.object({ type: z.literal('CultureOwnParent'), field: z.string() }),
  z.object({
    type: z.literal('InTheFuture'),
    field: z.string(),
    happenedAtMs: z.number(),
    nowMs: z.number(),
  }),
  z.object({
    type: z.literal('BeforeItBegan'),
    field: z.string(),
    happenedAtMs: z.number(),
    beganAtMs: z.number(),
  }),
  z.object({ type: z.literal('AlreadyStruck'), field: z.string() }),
  z.object({ type: z.literal('CannotReverse'), field: z.string(), kind: z.string() }),
  z.object({ type: z.literal('LaterEntriesRest'), field: z.string(), entryIds: z.array(z.string()) }),
  z.object({ type: z.literal('NothingToUndo'), field: z.string() }),
  z.object({ type: z.literal('NothingToRedo'), field: z.string() }),
] as const;
export const PlainLedgerError = z.discriminatedUnion('type', PLAIN);
export type PlainLedgerError = z.infer<typeof PlainLedgerError>;

export const LedgerError = z.discriminatedUnion('type', [
  ...PLAIN,
  /** Later entries that could not have been written had the earlier ones been as they are now told. */
  z.object({
    type: z.literal('RestateImpossible'),
    field: z.string(),
    refusals: z.array(z.object({ entryId: EntryId, error: PlainLedgerError })),
  }),
]);
export type LedgerError = z.infer<typeof LedgerError>;
