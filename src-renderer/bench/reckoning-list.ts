import type { Reckoning, ReckoningGroup } from '#core/reckonings/reckoning.ts';
import { sayField, sayReckoning, sayReckoningGroup } from '../words/reckoning-words.ts';

export interface ListedGroup {
  readonly group: ReckoningGroup;
  readonly name: string;
  readonly reckonings: readonly Reckoning[];
}

/** The reckonings in the order of the bench, under the heading of their group, those that a search finds. */
export function listed(all: readonly Reckoning[], text: string): readonly ListedGroup[] {
  const words = wordsOf(text);
  const groups = new Map<ReckoningGroup, Reckoning[]>();
  for (const reckoning of all) {
    if (!words.every((word) => searchable(reckoning).includes(word))) continue;
    const together = groups.get(reckoning.group) ?? [];
    together.push(reckoning);
    groups.set(reckoning.group, together);
  }
  return [...groups].map(([group, reckonings]) => ({ group, name: sayReckoningGroup(group), reckonings }));
}

/** The reckoning that a search means most likely: the one whose name or purpose has more of the words. Null: none is found. */
export function likeliest(all: readonly Reckoning[], text: string): Reckoning | null {
  const words = wordsOf(text);
  let best: Reckoning | null = null;
  let most = -1;
  for (const { reckonings } of listed(all, text)) {
    for (const reckoning of reckonings) {
      const { name, purpose } = sayReckoning(reckoning.id);
      const inName = words.filter((word) => folded(name).includes(word)).length;
      const inPurpose = words.filter((word) => folded(purpose).includes(word)).length;
      const score = inName * 100 + inPurpose;
      if (score > most) [best, most] = [reckoning, score];
    }
  }
  return best;
}

const wordsOf = (text: string): readonly string[] => folded(text).split(' ').filter(Boolean);

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
