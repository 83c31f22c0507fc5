import type { Clock } from '#core/base/ports.ts';

/** The computer's clock: milliseconds since 1970-01-01T00:00:00Z. */
export const systemClock: Clock = () => Date.now();
