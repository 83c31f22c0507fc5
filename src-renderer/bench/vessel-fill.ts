/** What a vessel lays into a field: a text the field reads back as the very value, and where that comes from. */
export interface VesselFill {
  readonly text: string;
  readonly origin: FillOrigin;
  /** When it was read; null for what the book says stands there now. */
  readonly atMs: number | null;
  readonly stale: Staleness | null;
}

export type FillOrigin =
  'dates' | 'read' | 'corrected' | 'countedAsAcetic' | 'workedOut' | 'book' | 'capacity' | 'must';

/** Why a reading no longer describes the vessel, by the measurement rules. */
export type Staleness =
  | { readonly rule: 'MEAS-03'; readonly changedAtMs: number }
  | { readonly rule: 'MEAS-04'; readonly limitMs: number | null };
