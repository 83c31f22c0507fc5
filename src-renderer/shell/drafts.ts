/**
 * Keeps a half-filled form through a reload. `key` names the form and what it is about, such as `reading:018f…`.
 */
export interface Draft<Fields extends Record<string, string>> {
  /** The fields as they were left, or null when there is no draft. */
  read(): Partial<Fields> | null;
  /** Keeps the fields; a form in which nothing has been typed is forgotten instead. */
  keep(fields: Fields): void;
  /** Forgets it, once the act is written or the keeper throws it away. */
  forget(): void;
}

const PREFIX = 'undercroft.draft.';

/** The draft of one form. Without storage it keeps nothing and fails nowhere. */
export function draftFor<Fields extends Record<string, string>>(
  key: string,
  storage: Storage | null = pageStorage(),
): Draft<Fields> {
  const name = PREFIX + key;
  return {
    read() {
      try {
        const kept: unknown = JSON.parse(storage?.getItem(name) ?? 'null');
        if (typeof kept !== 'object' || kept === null) return null;
        const fields = Object.entries(kept).filter(([, value]) => typeof value === 'string');
        return fields.length === 0 ? null : (Object.fromEntries(fields) as Partial<Fields>);
      } catch {
        return null;
      }
    },
    keep(fields) {
      try {
        if (Object.values(fields).every((value) => value.trim() === '')) storage?.removeItem(name);
        else storage?.setItem(name, JSON.stringify(fields));
      } catch {
        // The storage is full or shut off: the form itself still holds what was typed.
      }
    },
    forget() {
      try {
        storage?.removeItem(name);
      } catch {
        // As above; a stale draft is offered once more at worst.
      }
    },
  };
}

function pageStorage(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
