/** How long after a letter the next one still belongs to the same word, ms. */
const SAME_WORD_MS = 900;

/** Letters typed one after another, to jump to a name by its beginning. Case and accents do not matter. */
export class TypeAhead {
  #typed = '';
  #lastMs = Number.NEGATIVE_INFINITY;

  /** Whether a letter typed now goes on with a word begun before. */
  isTyping(nowMs: number): boolean {
    return this.#typed !== '' && nowMs - this.#lastMs < SAME_WORD_MS;
  }

  /** Ends the word: whatever is typed next begins another. */
  end(): void {
    this.#typed = '';
  }

  /** Adds a letter and gives what has been typed so far. */
  add(letter: string, nowMs: number): string {
    this.#typed = this.isTyping(nowMs) ? this.#typed + letter : letter;
    this.#lastMs = nowMs;
    return folded(this.#typed);
  }
}

/** A text without case and accents, so that `quetsch` finds `Quêtsch`. */
export function folded(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{Diacritic}/gu, '')
    .toLowerCase();
}

/**
 * The next name, from `after` on and round again, that begins with what was typed; a single letter typed again goes
 * on to the next, a longer word may stay where it is. Null when none does.
 */
export function nextNamed<Thing>(
  things: readonly Thing[],
  nameOf: (thing: Thing) => string,
  typed: string,
  after: number,
): Thing | null {
  const start = typed.length === 1 ? after + 1 : Math.max(0, after);
  for (let i = 0; i < things.length; i++) {
    const thing = things[(start + i + things.length) % things.length];
    if (thing !== undefined && folded(nameOf(thing)).startsWith(typed)) return thing;
  }
  return null;
}
