/** Remembers what was asked for lately: what is asked for again and again stays, the rest is let go. */
export interface KeptLately<Value> {
  get(key: string): Value | undefined;
  set(key: string, value: Value): void;
}

/** At most twice `most` values are held: a full generation is laid aside, and what is asked for from it is taken over. */
export function keptLately<Value>(most: number): KeptLately<Value> {
  let young = new Map<string, Value>();
  let old = new Map<string, Value>();
  const set = (key: string, value: Value): void => {
    if (young.size >= most) {
      old = young;
      young = new Map();
    }
    young.set(key, value);
  };
  return {
    set,
    get(key) {
      const known = young.get(key);
      if (known !== undefined) return known;
      const before = old.get(key);
      if (before !== undefined) set(key, before);
      return before;
    },
  };
}
