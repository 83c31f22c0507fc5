import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/**
 * Who may open the page. An entrance is a token in an address that works once; it is traded for a session cookie, which
 * works until the program ends. Other programs and other pages on this computer have neither.
 */
export interface EntryPass {
  /** A fresh token for one entrance. */
  newToken(): string;
  /** Trades a token for the session; false, and nothing traded, for a token that is unknown or was used. */
  useToken(token: string): boolean;
  /** The cookie's value. */
  readonly session: string;
  isSession(value: string | undefined): boolean;
}

export function newEntryPass(): EntryPass {
  const session = secret();
  const tokens = new Set<string>();
  return {
    session,
    newToken() {
      const token = secret();
      tokens.add(token);
      return token;
    },
    useToken(token) {
      let matched: string | undefined;
      for (const known of tokens) if (equal(known, token)) matched = known;
      return matched !== undefined && tokens.delete(matched);
    },
    isSession(value) {
      return value !== undefined && equal(session, value);
    },
  };
}

function secret(): string {
  return randomBytes(32).toString('base64url');
}

/** Compares in a time that does not depend on where the two differ; hashing first makes the lengths equal. */
function equal(one: string, other: string): boolean {
  return timingSafeEqual(digest(one), digest(other));
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
