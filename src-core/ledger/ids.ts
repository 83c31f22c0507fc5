import { z } from 'zod';

/**
 * Identifiers of the cellar. Each is a UUID (version 7, RFC 9562, when made by this program), branded so that
 * a batch's id cannot be handed over where a vessel's is asked for.
 */
export const PlaceId = z.uuid().brand('PlaceId');
export type PlaceId = z.infer<typeof PlaceId>;

export const ShelfId = z.uuid().brand('ShelfId');
export type ShelfId = z.infer<typeof ShelfId>;

export const VesselId = z.uuid().brand('VesselId');
export type VesselId = z.infer<typeof VesselId>;

export const BatchId = z.uuid().brand('BatchId');
export type BatchId = z.infer<typeof BatchId>;

export const CultureId = z.uuid().brand('CultureId');
export type CultureId = z.infer<typeof CultureId>;

/** A filter of the ledger of batches, kept by name. */
export const FilterId = z.uuid().brand('FilterId');
export type FilterId = z.infer<typeof FilterId>;

export const EntryId = z.uuid().brand('EntryId');
export type EntryId = z.infer<typeof EntryId>;
