/** Whether House Rules lies open, and which field of it is wanted first. */
class HouseRulesState {
  open = $state(false);
  /** The id of the field that takes focus on opening, or null for the first. */
  wantedField = $state<string | null>(null);

  show(): void {
    this.#showAt(null);
  }

  showCopy(): void {
    this.#showAt('save-copy-file');
  }

  showOpening(): void {
    this.#showAt('open-cellar-file');
  }

  #showAt(field: string | null): void {
    this.wantedField = field;
    this.open = true;
  }
}

export const houseRules = new HouseRulesState();
