import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Stage } from '#core/ledger/stage.ts';
import { STAGE_MARKS } from '../marks/stages.ts';

/** A stage by its name. */
export function sayStage(stage: Stage): string {
  return STAGE_MARKS[stage].name;
}

/** What an empty filter says: `No vessel is Held.` */
export function sayNoneInStage(stage: Stage): string {
  return `No vessel is ${STAGE_MARKS[stage].name}.`;
}

type Concern = NonNullable<ShelfRow['closureConcern']>;

const CONCERNS: Readonly<
  Record<Concern, { readonly ticket: string; readonly short: string; readonly long: string }>
> = {
  motherWithoutAir: {
    ticket: 'needs air',
    short: 'no air for the mother',
    long: 'A mother needs air, and this closure keeps it out. Cover the vessel with cloth.',
  },
  yeastOpenToAir: {
    ticket: 'open to air',
    short: 'open to air',
    long: 'Yeast is at work and air gets in; the bacteria that make vinegar come with it. Close it with a water lock.',
  },
};

/** Why a closure works against the stage, as chalked on the ticket. */
export function sayConcernTicket(concern: Concern): string {
  return CONCERNS[concern].ticket;
}

/** The same in a few words: for the accessible name and the table. */
export function sayConcernShort(concern: Concern): string {
  return CONCERNS[concern].short;
}

/** The same as a sentence with what to do. */
export function sayConcern(concern: Concern): string {
  return CONCERNS[concern].long;
}
