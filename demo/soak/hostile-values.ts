/** Chance as `chanceFrom` gives it: numbers from 0 to below 1. */
export type Chance = () => number;

/** The parts of JSON Schema that `z.toJSONSchema` writes for the contract. */
export interface ValueShape {
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly ValueShape[];
  readonly oneOf?: readonly ValueShape[];
  readonly allOf?: readonly ValueShape[];
  readonly properties?: Readonly<Record<string, ValueShape>>;
  readonly required?: readonly string[];
  readonly propertyNames?: ValueShape;
  readonly additionalProperties?: boolean | ValueShape;
  readonly items?: ValueShape;
  readonly prefixItems?: readonly ValueShape[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly format?: string;
  readonly pattern?: string;
}

/** What a generated call may name: ids that exist, by the name of the field that asks for them, and so with moments. */
export interface Known {
  id(field: string): string | undefined;
  readonly nowMs: number;
}

export function pick<T>(chance: Chance, from: readonly T[]): T {
  const one = from[Math.floor(chance() * from.length)];
  if (one === undefined) throw new Error('nothing to pick from');
  return one;
}

const WORDS = ['plum', 'Quince must', 'top shelf', 'syrup', '1.048', 'Ä ö 梅 🍎', 'a-b', 'mother', ''];
const TABLES = ['readings', 'vessels', 'batches', 'no-such-table'];

/** A value that fits the shape, as far as a shape says it all; what a refinement asks besides may still refuse it. */
export function fittingValue(shape: ValueShape, chance: Chance, known: Known, field = ''): unknown {
  if (shape.const !== undefined) return shape.const;
  if (shape.enum !== undefined) return pick(chance, shape.enum);
  const choices = shape.anyOf ?? shape.oneOf;
  if (choices !== undefined) return fittingValue(pick(chance, choices), chance, known, field);
  const type =
    typeof shape.type === 'string' || shape.type === undefined ? shape.type : pick(chance, shape.type);
  switch (type) {
    case 'object':
      return fittingObject(shape, chance, known);
    case 'array':
      return fittingArray(shape, chance, known, field);
    case 'string':
      return fittingText(shape, chance, known, field);
    case 'integer':
    case 'number':
      return fittingNumber(shape, chance, known, field);
    case 'boolean':
      return chance() < 0.5;
    default:
      return null;
  }
}

function fittingObject(shape: ValueShape, chance: Chance, known: Known): Record<string, unknown> {
  const made: Record<string, unknown> = {};
  for (const [name, inner] of Object.entries(shape.properties ?? {})) {
    if (shape.required?.includes(name) !== true && chance() < 0.5) continue;
    made[name] = fittingValue(inner, chance, known, name);
  }
  if (typeof shape.additionalProperties === 'object') {
    for (let left = Math.floor(chance() * 3); left > 0; left -= 1) {
      made[pick(chance, ['quick', 'note', 'volume'])] = fittingValue(
        shape.additionalProperties,
        chance,
        known,
      );
    }
  }
  return made;
}

function fittingArray(shape: ValueShape, chance: Chance, known: Known, field: string): unknown[] {
  if (shape.prefixItems !== undefined) {
    return shape.prefixItems.map((inner) => fittingValue(inner, chance, known, field));
  }
  const from = shape.minItems ?? 0;
  const count = Math.min(shape.maxItems ?? 3, from + Math.floor(chance() * 3));
  return Array.from({ length: count }, () => fittingValue(shape.items ?? {}, chance, known, field));
}

function fittingText(shape: ValueShape, chance: Chance, known: Known, field: string): string {
  if (shape.format === 'uuid') return known.id(field) ?? uuid(chance);
  if (shape.pattern !== undefined) {
    const matching = new RegExp(shape.pattern, 'u');
    const fits = ['A', 'BC', 'plum', ...TABLES, 'ab'.repeat(32), '2026-11-25'].filter((text) =>
      matching.test(text),
    );
    if (fits.length > 0) return pick(chance, fits);
  }
  const word = pick(chance, WORDS);
  const least = shape.minLength ?? 0;
  return (word.length < least ? word.padEnd(least, 'x') : word).slice(0, shape.maxLength ?? 200);
}

const LITRE = 1_000_000;

function fittingNumber(shape: ValueShape, chance: Chance, known: Known, field: string): number {
  if (/Ms$/u.test(field)) {
    const back = pick(chance, [0, 3_600_000, 86_400_000, 40 * 86_400_000]);
    return known.nowMs - Math.floor(chance() * back);
  }
  if (/Ul$/u.test(field)) return Math.max(shape.minimum ?? 0, Math.floor(chance() * 3 * LITRE));
  const least = shape.minimum ?? shape.exclusiveMinimum ?? 0;
  const most = Math.min(shape.maximum ?? shape.exclusiveMaximum ?? 100, least + 1000);
  const value = least + chance() * (most - least);
  return shape.type === 'integer' ? Math.round(value) : value;
}

function uuid(chance: Chance): string {
  const hex = (count: number) =>
    Array.from({ length: count }, () => Math.floor(chance() * 16).toString(16)).join('');
  return `${hex(8)}-${hex(4)}-7${hex(3)}-a${hex(3)}-${hex(12)}`;
}

/** Values that are never what is asked for, or are it in the worst way. */
const WORST: readonly (() => unknown)[] = [
  () => null,
  () => undefined,
  () => NaN,
  () => Infinity,
  () => -0,
  () => -1,
  () => 1e308,
  () => Number.MAX_SAFE_INTEGER,
  () => Number.MAX_SAFE_INTEGER + 2,
  () => 5e-324,
  () => 0.1 + 0.2,
  () => 8.64e15,
  () => -62_135_596_800_001,
  () => 253_402_300_800_000,
  () => true,
  () => [],
  () => ({}),
  () => '',
  () => 'x'.repeat(50_000),
  () => '\u0000',
  () => 'a\u0000b',
  () => '\ud800',
  () => 'half \udc00 pair',
  () => '\u202e\u2066right to left',
  () => 'e\u0301'.repeat(2000),
  () => '💥'.repeat(60),
  () => "'; DROP TABLE entry; --",
  () => '%s%n%x',
  () => '<img src=x onerror=alert(1)>',
  () => '"><script>alert(1)</script>',
  () => 'javascript:alert(1)',
  () => '=HYPERLINK("x")',
  () => '../../../../etc/passwd',
  () => '..\\..\\windows\\system.ini',
  () => 'NaN',
  () => '-0',
  () => '1e400',
  () => '__proto__',
  () => 'constructor',
  () => '00000000-0000-0000-0000-000000000000',
  () => 'ffffffff-ffff-ffff-ffff-ffffffffffff',
  () => '2026-02-30T25:61:61Z',
  () => new Date(NaN),
  () => 10n ** 30n,
  () => /(a+)+$/u,
  () => new Set([1, 1]),
  () => new Map([['a', 1]]),
  () => new URL('file:///etc/passwd'),
  () => nested(200),
  () => Array.from({ length: 3000 }, (_, index) => index),
  () => JSON.parse('{"__proto__":{"polluted":true}}') as unknown,
  () => ({ constructor: { prototype: { polluted: true } } }),
  () => ({ toString: null, valueOf: null, hasOwnProperty: 1, then: 1 }),
  () => ({ length: 1e9 }),
];

export function worstValue(chance: Chance): unknown {
  return pick(chance, WORST)();
}

function nested(depth: number): unknown {
  let inner: unknown = 'bottom';
  for (let level = 0; level < depth; level += 1) inner = level % 2 === 0 ? [inner] : { a: inner };
  return inner;
}

/** Breaks a value in one to three places: a part replaced, left away, doubled, or given a neighbour nobody asked for. */
export function broken(value: unknown, chance: Chance): unknown {
  let now = value;
  for (let times = 1 + Math.floor(chance() * 3); times > 0; times -= 1) now = brokenOnce(now, chance);
  return now;
}

function brokenOnce(value: unknown, chance: Chance): unknown {
  const plain =
    typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
  const isList = Array.isArray(value);
  if ((!plain && !isList) || chance() < 0.15) return worstValue(chance);
  const made: Record<string, unknown> | unknown[] = isList ? [...(value as unknown[])] : { ...value };
  const keys = Object.keys(made);
  const key = keys.length === 0 ? undefined : pick(chance, keys);
  const at = made as Record<string, unknown>;
  const turn = chance();
  if (key === undefined || turn < 0.15) {
    const name = pick(chance, ['__proto__', 'constructor', 'prototype', 'toJSON', 'extra', '', '0', 'kind']);
    Object.defineProperty(made, name, {
      ...{ value: worstValue(chance), enumerable: true, configurable: true, writable: true },
    });
  } else if (turn < 0.25) Reflect.deleteProperty(made, key);
  else if (turn < 0.35 && Array.isArray(made)) made.push(...made);
  else if (turn < 0.8) at[key] = brokenOnce(at[key], chance);
  else at[key] = worstValue(chance);
  return made;
}
