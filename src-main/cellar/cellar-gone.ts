/** A backup is being put in the place of the open cellar: what is written now would not be in the safety copy. */
export class CellarHeldStill extends Error {
  readonly code = 'CELLAR_HELD_STILL';

  constructor(file: string) {
    super(`${file} is being replaced by a backup`);
    this.name = 'CellarHeldStill';
  }
}

/**
 * The file that was opened is no longer where it was: moved, thrown away, or on a disk that was taken out. What is written
 * to it now would be lost with the program.
 */
export class CellarGone extends Error {
  readonly code = 'CELLAR_GONE';

  constructor(file: string) {
    super(`${file} is no longer the file that was opened`);
    this.name = 'CellarGone';
  }
}
