import { z } from 'zod';

/** Why a line that was found is not taken into the new book. It is kept in the report as text. */
export const ASIDE_REASONS = [
  /** Not what any program of ours writes. */
  'Unreadable',
  /** Its postings do not sum to zero. */
  'Unbalanced',
  /** The file holds two lines under one number that say different things. */
  'TwoVersions',
  /** An earlier line has its id, or its request. */
  'Twice',
  /** What it speaks of is not there, since a line before it was lost, or never was. */
  'CannotFollow',
  /** Its postings move other volumes than its act says. */
  'OtherAmounts',
  /** The picture it ties to the book was lost. */
  'PictureLost',
] as const;

export const LineAside = z.object({
  sequence: z.int(),
  why: z.enum(ASIDE_REASONS),
  /** The refusal's type, where the book refused it. */
  detail: z.string(),
  /** What could be read of it. */
  text: z.string(),
});
export type LineAside = z.infer<typeof LineAside>;

/** What became of a damaged cellar file. It counts only what was seen: lines after the last that left a trace are unknown. */
export const SalvageReport = z.object({
  file: z.string(),
  target: z.string(),
  lines: z.object({
    saved: z.int(),
    aside: z.int(),
    /** Numbers up to the highest seen of which no line was found. */
    lost: z.int(),
    highestSeen: z.int(),
    /** Where they are missing, from and to; the first of them. */
    gaps: z.array(z.object({ from: z.int(), to: z.int() })),
    /** Old numbers of lines that are kept, with their amounts reckoned anew from what is left before them. */
    reckonedAnew: z.array(z.int()),
  }),
  aside: z.array(LineAside),
  /** Lines written anew for lost ones, as far as the old shelf tells: they say what was there, not how it came to be. */
  standIns: z.array(
    z.object({ what: z.enum(['place', 'shelf', 'vessel', 'culture', 'batch']), name: z.string() }),
  ),
  /** Lines that are kept although something else in the file says otherwise: to be looked at. */
  doubtful: z.array(z.object({ sequence: z.int(), text: z.string() })),
  pictures: z.object({
    saved: z.int(),
    /** Found, but not what their checksum says. */
    damaged: z.int(),
    /** Saved, with the picture itself in the place of its thumbnail. */
    withoutThumbnail: z.int(),
  }),
  /** Whether the cellar's name and house rules could be read; else they are as at first. */
  nameRead: z.boolean(),
  houseRulesRead: z.boolean(),
  pages: z.object({
    total: z.int(),
    /** Rows that are there and cannot be read. */
    brokenRows: z.int(),
    headerReadable: z.boolean(),
    /** Pages of the log that were taken, and those that were not proven or not ended. */
    logTaken: z.int(),
    logLeft: z.int(),
  }),
});
export type SalvageReport = z.infer<typeof SalvageReport>;
