import { ok } from '../base/result.ts';
import type { Rational } from '../quantities/rational.ts';
import { findUnit } from '../quantities/units.ts';
import { answer, step } from './answer.ts';
import { asked, defineReckoning } from './define-reckoning.ts';
import { choice, needed, when } from './fields.ts';
import { figure } from './figure.ts';

/** The units shown of each kind: the answer's name, and the unit as it is written. */
const VOLUMES = {
  litres: 'L',
  millilitres: 'ml',
  usGallons: 'gal',
  usQuarts: 'qt',
  usFluidOunces: 'fl oz',
  imperialGallons: 'imp gal',
  imperialPints: 'imp pt',
  imperialFluidOunces: 'imp fl oz',
} as const;
const MASSES = { kilograms: 'kg', grams: 'g', pounds: 'lb', ounces: 'oz' } as const;

/** A volume, a mass or a temperature in the other units of its kind. Exact. */
export const convertUnits = defineReckoning({
  id: 'convertUnits',
  group: 'convert',
  fields: [
    choice('convert', ['volume', 'mass', 'temperature']),
    when('convert', ['volume'], needed('volumeUl', 'volume')),
    when('convert', ['mass'], needed('massUg', 'mass')),
    when('convert', ['temperature'], needed('temperatureCelsius', 'temperature')),
  ],
  says: {
    answers: [
      'litres',
      'millilitres',
      'usGallons',
      'usQuarts',
      'usFluidOunces',
      'imperialGallons',
      'imperialPints',
      'imperialFluidOunces',
      'kilograms',
      'grams',
      'pounds',
      'ounces',
      'celsius',
      'fahrenheit',
      'kelvin',
    ],
    steps: ['convertedUnit'],
    cautions: [],
    reasons: [],
  },
  reckon(values) {
    switch (values.convert) {
      case 'volume':
        return ok(inEach(VOLUMES, 'volume', asked(values.volumeUl)));
      case 'mass':
        return ok(inEach(MASSES, 'mass', asked(values.massUg)));
      case 'temperature': {
        const celsius = asked(values.temperatureCelsius);
        const fahrenheit = (celsius * 9) / 5 + 32;
        const kelvin = celsius + 273.15;
        return ok({
          answers: [
            answer('celsius', celsius, '°C'),
            answer('fahrenheit', fahrenheit, '°F'),
            answer('kelvin', kelvin, 'K'),
          ],
          steps: [
            step('convertedUnit', `${figure(celsius)} × 9 ÷ 5 + 32`, fahrenheit, '°F', 'NIST SP 811'),
            step('convertedUnit', `${figure(celsius)} + 273.15`, kelvin, 'K', 'NIST SP 811'),
          ],
          cautions: [],
        });
      }
    }
  },
});

function inEach<Name extends string>(
  units: Readonly<Record<Name, string>>,
  kind: 'volume' | 'mass',
  canonical: number,
) {
  const names = Object.keys(units) as Name[];
  const shown = names.map((name) => {
    const factor = factorOf(kind, units[name]);
    const base = kind === 'volume' ? 'L' : 'g';
    return {
      answer: answer(name, canonical / factor, units[name]),
      step: step(
        'convertedUnit',
        `${figure(canonical / 1e6)} ${base} ÷ ${factor / 1e6}`,
        canonical / factor,
        units[name],
        'NIST SP 811 appendix B',
      ),
    };
  });
  return {
    answers: shown.map((one) => one.answer),
    steps: shown.map((one) => one.step),
    cautions: [],
  };
}

function factorOf(kind: 'volume' | 'mass', symbol: string): number {
  const unit = findUnit(kind, symbol);
  if (unit?.scale.by !== 'factor') throw new Error(`No such unit of ${kind}: ${symbol}`);
  return asNumber(unit.scale.factor);
}

function asNumber({ numerator, denominator }: Rational): number {
  return Number(numerator) / Number(denominator);
}
