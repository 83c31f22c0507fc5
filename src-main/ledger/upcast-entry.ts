/**
 * Brings an act written in an older format to the present one; the line in the file stays as it was written.
 * The second format weighs what comes in and knows more acts; an act of the first is read as it is. Throws for a format
 * this program does not know.
 */
export function openUpcast(act: unknown, format: number): unknown {
  if (format !== 1 && format !== 2) throw new Error(`act format ${format} is not known to this program`);
  return act;
}
