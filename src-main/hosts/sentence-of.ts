/**
 * The sentence an error carries for the person, as a cellar that cannot be opened does.
 *
 * @returns undefined for any other error, which is a bug and shows its trace
 */
export function sentenceOf(error: unknown): string | undefined {
  if (!(error instanceof Error) || !('sentence' in error)) return undefined;
  return typeof error.sentence === 'string' ? error.sentence : undefined;
}
