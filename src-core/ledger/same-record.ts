/** True when two records say the same, whoever wrote them last. Order of fields does not matter. */
export function sameRecord(a: object | null, b: object | null): boolean {
  if (a === null || b === null) return a === b;
  return same({ ...a, writtenBy: null }, { ...b, writtenBy: null });
}

function same(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [left, right] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const fields = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...fields].every((field) => same(left[field], right[field]));
}
