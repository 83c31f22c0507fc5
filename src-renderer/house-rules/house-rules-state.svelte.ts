/** Whether House Rules lies open, and on which of its leaves. */
class HouseRulesState {
  open = $state(false);
  /** Opens with the part for saving a copy in sight. */
  atCopy = $state(false);

  show(): void {
    this.atCopy = false;
    this.open = true;
  }

  showCopy(): void {
    this.atCopy = true;
    this.open = true;
  }
}

export const houseRules = new HouseRulesState();
