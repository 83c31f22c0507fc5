import type { Database } from 'better-sqlite3';
import { HouseRules, HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';

/** The house rules of the open cellar; what an older file does not name is as at first. */
export interface HouseRulesService {
  read(): HouseRules;
  settle(rules: HouseRules): HouseRules;
}

/** `refuseWriting` is asked before each write, and throws when the file is not to be written. */
export function openHouseRules(sqlite: Database, refuseWriting: () => void): HouseRulesService {
  const select = sqlite.prepare('SELECT house_rules FROM cellar WHERE id = 1').pluck();
  const update = sqlite.prepare('UPDATE cellar SET house_rules = ? WHERE id = 1');
  const read = (): HouseRules => {
    const stored = JSON.parse(select.get() as string) as Record<string, unknown>;
    const known = Object.keys(HOUSE_RULES_AT_FIRST).filter((key) => Object.hasOwn(stored, key));
    return HouseRules.parse({
      ...HOUSE_RULES_AT_FIRST,
      ...Object.fromEntries(known.map((k) => [k, stored[k]])),
    });
  };
  return {
    read,
    settle(rules) {
      refuseWriting();
      // Other habits of the house lie beside the rules and stay as they are.
      const stored = JSON.parse(select.get() as string) as Record<string, unknown>;
      update.run(JSON.stringify({ ...stored, ...rules }));
      return read();
    },
  };
}
