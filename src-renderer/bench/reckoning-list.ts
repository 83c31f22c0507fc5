import type { Reckoning, ReckoningGroup } from '#core/reckonings/reckoning.ts';
import { sayField, sayReckoning, sayReckoningGroup } from '../words/reckoning-words.ts';

export interface ListedGroup {
  readonly group: ReckoningGroup;
  readonly name: string;
  readonly reckonings: readonly Reckoning[];
}

/** The reckonings in the order of the bench, under the heading of their group, those that a search finds. */
export function listed(all: readonly Reckoning[], text: string): readonly ListedGroup[] {
  const words = folded(text).split(' ').filter(Boolean);
  const groups = new Map<ReckoningGroup, Reckoning[]>();
  for (const reckoning of all) {
    if (!words.every((word) => searchable(reckoning).includes(word))) continue;
    const together = groups.get(reckoning.group) ?? [];
    together.push(reckoning);
    groups.set(reckoning.group, together);
  }
  return [...groups].map(([group, reckonings]) => ({ group, name: sayReckoningGroup(group), reckonings }));
}

function searchable({ id, group, fields }: Reckoning): string {
  const { name, purpose } = sayReckoning(id);
  const asked = fields.map((field) => sayField(id, field.name).label);
  return folded([name, purpose, sayReckoningGroup(group), ...asked].join(' '));
}

/** Without case, accents and marks, as the search of the cellar reads too. */
function folded(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .toLowerCase()
    .trim();
}

/** The reckonings that can take something from a vessel with these readings. */
export function fittingVessel(
  all: readonly Reckoning[],
  has: (value: string) => boolean,
): readonly Reckoning[] {
  return all.filter(({ fields }) =>
    fields.some((field) => field.kind === 'quantity' && field.fromVessel !== null && has(field.fromVessel)),
  );
}
