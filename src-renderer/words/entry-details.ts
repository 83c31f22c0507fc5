import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { WORLD_ACCOUNTS } from '#core/ledger/postings.ts';
import { sayVolume } from './quantity-words.ts';

type WorldAccount = (typeof WORLD_ACCOUNTS)[number];

const WORLD: Readonly<Record<WorldAccount, string>> = {
  store: 'from or to the store',
  lees: 'left as lees',
  drain: 'down the drain',
  drawn: 'drawn off',
  bottles: 'into bottles',
  air: 'into the air',
  unexplained: 'not explained',
  loss: 'lost',
  conversion: 'turned by living work',
  contraction: 'shrunk in mixing',
  samples: 'taken as samples',
  drunk: 'opened',
  given: 'given away',
  broken: 'broken',
};

/** The liquid a line moved, account by account: `Jar 2 +1.4 L`, `left as lees +200 ml`. The parts sum to nothing. */
export function sayPostings(
  entry: Pick<EntryRow, 'postings' | 'names'>,
  rules: Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>,
): readonly string[] {
  return entry.postings
    .filter(({ deltaUl }) => deltaUl !== 0)
    .map(({ account, deltaUl }) => {
      const name = isWorld(account) ? WORLD[account] : (entry.names[account] ?? 'a vessel');
      return `${name} ${deltaUl > 0 ? '+' : '\u2212'}${sayVolume(Math.abs(deltaUl), rules)}`;
    });
}

function isWorld(account: string): account is WorldAccount {
  return WORLD_ACCOUNTS.some((world) => world === account);
}

/** What a field of a form is called, from the name it is kept under: `volume`, `taste`, `lost to lees`. */
export function sayTypedField(field: string): string {
  const known = FIELDS[field];
  if (known !== undefined) return known;
  const part = /^parts\.([0-9]+)\.volumeUl$/u.exec(field);
  if (part) return `part ${Number(part[1]) + 1}`;
  const words = field
    .replace(/(?:Ul|Ug|Sg|Ms|Celsius|GramsPer100Ml|MgPerL|PercentVolume)$/u, '')
    .replace(/([a-z])([A-Z])/gu, '$1 $2')
    .toLowerCase();
  return words === '' ? field : words;
}

const FIELDS: Readonly<Record<string, string>> = {
  ph: 'pH',
  happenedAt: 'when',
  happenedAtMs: 'when',
  when: 'when',
  leesUl: 'left as lees',
  lossUl: 'lost',
  bottleUl: 'size of a bottle',
  drawnUl: 'drawn',
  share: 'share drawn',
  refillUl: 'refilled with',
  restUntilMs: 'rests until',
};
