import fc from 'fast-check';

/**
 * Where random cases begin. A run of `npm test` gives every machine the same cases; `UNDERCROFT_SEED=random` looks for
 * new ones, and a number repeats those of a run that failed.
 */
const asked = process.env['UNDERCROFT_SEED'] ?? '20261128';
if (asked !== 'random') fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(asked) });
