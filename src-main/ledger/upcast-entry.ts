/**
 * Brings an act written in an older format to the present one; the line in the file stays as it was written.
 * There has been one format so far. Throws for a format this program does not know.
 */
export function openUpcast(act: unknown, format: number): unknown {
  if (format !== 1) throw new Error(`act format ${format} is not known to this program`);
  return act;
}
