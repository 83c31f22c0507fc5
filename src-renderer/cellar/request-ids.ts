/**
 * Gives each act the id of its request. An act sent again because no answer came gets the same id, so that the host
 * can tell that it has written it already.
 */
export class RequestIds {
  readonly #newId: () => string;
  #open: { readonly key: string; readonly id: string } | null = null;

  constructor(newId: () => string) {
    this.#newId = newId;
  }

  for(input: object): string {
    const key = JSON.stringify(input);
    if (this.#open?.key !== key) this.#open = { key, id: this.#newId() };
    return this.#open.id;
  }

  /** An answer came, whichever: the same act asked for once more is another act. */
  settled(input: object): void {
    if (this.#open?.key === JSON.stringify(input)) this.#open = null;
  }
}
