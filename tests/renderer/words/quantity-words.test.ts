import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import {
  exactVolumeText,
  sayAcidity,
  sayGravity,
  sayPh,
  sayTemperature,
  sayUnderstood,
  sayVolume,
  trimmed,
} from '#renderer/words/quantity-words.ts';

const metric: HouseUnits = { volume: 'metric', temperature: 'C', gravity: 'SG' };
const us: HouseUnits = { volume: 'us', temperature: 'F', gravity: 'Bx' };

const plain = (text: string): string => text.replaceAll('\u00A0', ' ');
const understood = (kind: QuantityKind, text: string, house: HouseUnits): string =>
  plain(sayUnderstood(mustSucceed(parseQuantity(kind, text, house)), house));

test('values are said in the units of the house', () => {
  expect(sayGravity(1.048, metric)).toBe('1.048');
  expect(plain(sayGravity(1.048, us))).toBe('11.9 °Bx');
  expect(plain(sayVolume(1_500_000, metric))).toBe('1.5 L');
  expect(plain(sayTemperature(20, us))).toBe('68.0 °F');
  expect(plain(sayPh(3.4))).toBe('pH 3.40');
});

test('the name of the acid is never dropped', () => {
  expect(plain(sayAcidity(4.1, 'acetic'))).toBe('4.1 % as acetic');
  expect(plain(sayAcidity(4.1, null))).toBe('4.1 %, acid not named');
});

test.each([
  ['gravity', '1,048', 'gravity 1.048 SG; the comma is read as a decimal mark'],
  ['gravity', '1048', 'gravity 1.048 SG; read as thousandths'],
  ['gravity', '12 Bx', 'gravity 1.048 SG; from °Bx'],
  ['gravity', '0.998', 'gravity 0.998 SG'],
  ['acidity', '52 g/L', 'acidity 5.2 %; which acid is not said'],
  ['acidity', '5.2 % as tartaric', 'acidity 5.2 % as tartaric; % is grams in 100 mL'],
  ['pH', '3.41', 'pH 3.41'],
  ['volume', '2 qt', '1.893 L; US measure'],
  ['volume', '1 gal', '3.785 L; US gallon of 3.785 L'],
  ['volume', '1½ L', '1.5 L'],
  ['volume', '500 ml', '500 ml'],
  ['temperature', '68F', '20 °C'],
  ['mass', '1 lb', '454 g'],
  ['freeSulfite', '30 ppm', 'free SO2 30 mg/L'],
  ['alcohol', '6.2 %', 'alcohol 6.2 % vol'],
] as const)('%s %s is echoed as %s', (kind, text, echo) => {
  expect(understood(kind, text, metric)).toBe(echo);
});

test('an acidity that names no acid is echoed with the one chosen beside it', () => {
  const read = mustSucceed(parseQuantity('acidity', '4.25', metric));
  expect(plain(sayUnderstood(read, metric, 'malic'))).toBe('acidity 4.25 % as malic; % is grams in 100 mL');
});

test('what is echoed is never a rounding of what was typed', () => {
  expect(understood('acidity', '4.25 %', metric)).toContain('4.25');
  expect(understood('gravity', '1.0485', metric)).toContain('1.0485');
  expect(understood('volume', '1.234 L', metric)).toBe('1.234 L');
});

test('a volume written to be put into a field reads back as the very same microlitres', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 100_000_000 }),
      fc.constantFrom<HouseUnits>(metric, us),
      (volumeUl, house) => {
        const text = exactVolumeText(volumeUl, house);
        expect(mustSucceed(parseQuantity('volume', text, house)).volumeUl).toBe(volumeUl);
      },
    ),
  );
});

test('a volume a US household measured out is offered in its own measures', () => {
  for (const text of ['5 gal', '2.5 gal', '3 qt', '12 fl oz']) {
    const { volumeUl } = mustSucceed(parseQuantity('volume', text, us));
    expect(exactVolumeText(volumeUl, us)).toBe(text);
  }
});

test('numbers lose their trailing noughts and nothing else', () => {
  expect(trimmed(1.5, 3)).toBe('1.5');
  expect(trimmed(100, 3)).toBe('100');
  expect(trimmed(-0.25, 3)).toBe('-0.25');
});
