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
