/** Where a host writes what a person at the terminal should know. */
export interface Log {
  /** Something expected, for instance where the program is open. */
  say(sentence: string): void;
  /** Something that cannot be done, with what to do instead. */
  refuse(sentence: string): void;
  /** A fault of the program, with the error itself for whoever mends it. */
  fault(sentence: string, error: unknown): void;
}

/** Sentences go to standard output, refusals and faults to standard error. */
export const terminalLog: Log = {
  say(sentence) {
    console.log(sentence);
  },
  refuse(sentence) {
    console.error(sentence);
  },
  fault(sentence, error) {
    console.error(sentence, error);
  },
};
