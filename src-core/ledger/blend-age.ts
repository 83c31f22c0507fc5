/** One origin of a liquid: its tokens, and when it began. */
export interface AgedShare {
  readonly tokens: number;
  readonly bornAtMs: number;
}

/** Ages in days. */
export interface BlendAge {
  readonly mean: number;
  readonly youngest: number;
  readonly oldest: number;
}

const DAY_MS = 86_400_000;
/** A smaller share of a liquid is a trace: it is kept in the account and does not make it old. */
export const TRACE_SHARE = 1e-6;

/**
 * The age of a blend in days: the mean of its origins' ages by their shares, and the ages of its youngest and oldest
 * origin that is more than a trace. Null when nothing of its origins is known. A time before an origin counts as age 0.
 */
export function blendAge(origins: readonly AgedShare[], atMs: number): BlendAge | null {
  const known = origins.filter(({ tokens }) => tokens > 0);
  const total = known.reduce((sum, { tokens }) => sum + tokens, 0);
  if (total === 0) return null;
  const ageOf = ({ bornAtMs }: AgedShare): number => Math.max(0, atMs - bornAtMs) / DAY_MS;
  const mean = known.reduce((sum, origin) => sum + (origin.tokens / total) * ageOf(origin), 0);
  const ages = known.filter(({ tokens }) => tokens / total >= TRACE_SHARE).map(ageOf);
  return { mean, youngest: Math.min(...ages), oldest: Math.max(...ages) };
}
