/** Milliseconds since 1970-01-01T00:00:00Z. The core only ever gets the time as an argument. */
export type EpochMs = number;

/** Tells the time. The core never reads a clock itself, so a year of cellar can be played in a test. */
export type Clock = () => EpochMs;

/** Makes a new, never used id. */
export type NewId = () => string;
