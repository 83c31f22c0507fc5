import { DUE_GROUPS, type Grouping, type ShelfGroup, type ShelfOverview } from '#core/contract/shelves.ts';
import { STAGES } from '#core/ledger/stage.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { DUE_GROUP_WORDS } from './due-words.ts';

/** The name of a drawn shelf: `Pantry, top shelf`, a stage, a due group, or `Not placed`. */
export function sayGroup(group: ShelfGroup, grouping: Grouping): string {
  switch (grouping) {
    case 'place': {
      if (group.shelfName === null) return 'Not placed';
      return group.placeName === null ? group.shelfName : `${group.placeName}, ${group.shelfName}`;
    }
    case 'stage': {
      const stage = STAGES.find((one) => one === group.key);
      return stage === undefined ? group.key : STAGE_MARKS[stage].name;
    }
    case 'due': {
      const due = DUE_GROUPS.find((one) => one === group.key);
      return due === undefined ? group.key : DUE_GROUP_WORDS[due];
    }
  }
}

/** What stands beside the name: `6 in use · 1 due`. */
export function sayGroupSummary(group: ShelfGroup, grouping: Grouping): string {
  const parts = [
    grouping === 'place'
      ? `${group.inUse} in use`
      : group.vesselCount === 1
        ? '1 vessel'
        : `${group.vesselCount} vessels`,
  ];
  if (group.dueCount > 0 && grouping !== 'due') parts.push(`${group.dueCount} due`);
  return parts.join(' · ');
}

/** Which places of a long shelf a further plank carries: `continued 13–24`. */
export function sayContinued(first: number, last: number): string {
  return `continued ${first}–${last}`;
}

/** The cellar in one sentence, for those who do not see it. */
export function sayOverview(overview: ShelfOverview): string {
  const { vesselCount, inUse, lateCount, todayCount } = overview;
  return `${inUse} of ${vesselCount} vessels in use, ${lateCount} late, ${todayCount} due today`;
}
