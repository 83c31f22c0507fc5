import { ReadingValues } from '#core/ledger/act.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { parseChalk } from '#core/quantities/parse-chalk.ts';
import {
  acidOfVessel,
  bookTakes,
  chalkedReading,
  type ChalkedReading,
} from '#renderer/find/chalked-reading.ts';
import { readingPhrases } from '#renderer/words/reading-words.ts';
import { describe, expect, it } from 'vitest';

const RULES = { hydrometerCalibrationCelsius: 15 };

function read(line: string, row: Parameters<typeof chalkedReading>[1]): ChalkedReading {
  const chalk = parseChalk(line, METRIC_HOUSE);
  if (!chalk.ok) throw new Error(chalk.error.type);
  return chalkedReading(chalk.value.readings, row, RULES);
}

describe('a chalked line as a reading', () => {
  it('says an alcohol back as one, never as an acid', () => {
    for (const typed of ['6.4 % abv', '6.4 abv', '6.4 % vol', '6.4 vol%']) {
      const reading = read(`B1 ${typed}`, { stage: 'yeast', ferment: 'cider' });
      if (reading.type !== 'reading') throw new Error(reading.type);
      expect(reading.values).toMatchObject({ alcoholPercentVolume: 6.4, acidityGramsPer100Ml: null });
      expect(reading.typed).toEqual({ alcohol: typed });
      expect(readingPhrases(reading.values, METRIC_HOUSE).join(', ')).toMatch(/^alcohol 6\.4\s?%\svol$/u);
    }
  });

  it("is what the book takes, with the house's hydrometer", () => {
    const reading = read('B1 1.010 19C', { stage: 'yeast', ferment: 'cider' });
    if (reading.type !== 'reading') throw new Error(reading.type);
    expect(ReadingValues.parse(reading.values)).toMatchObject({
      gravitySg: 1.01,
      gravityInstrument: 'hydrometer',
      gravityCalibrationCelsius: 15,
      temperatureCelsius: 19,
    });
    expect(reading.typed).toEqual({ gravity: '1.010', temperature: '19C' });
  });

  it('names no instrument for a sugar scale, since either may carry one', () => {
    const reading = read('B1 12 Bx', { stage: 'waiting', ferment: 'cider' });
    if (reading.type !== 'reading') throw new Error(reading.type);
    expect(reading.values.gravityInstrument).toBeNull();
  });

  it('counts an acidity as acetic on a vinegar and as lactic on a brine', () => {
    expect(acidOfVessel({ stage: 'vinegar', ferment: 'wine' })).toBe('acetic');
    expect(acidOfVessel({ stage: 'ready', ferment: 'fruitVinegar' })).toBe('acetic');
    expect(acidOfVessel({ stage: 'lactic', ferment: 'brinedVegetables' })).toBe('lactic');
  });

  it('asks for the acid where the vessel does not tell', () => {
    expect(read('B1 6 g/L', { stage: 'yeast', ferment: 'wine' }).type).toBe('acidMissing');
    const named = read('B1 6 g/L as tartaric', { stage: 'yeast', ferment: 'wine' });
    if (named.type !== 'reading') throw new Error(named.type);
    expect(named.values.acidityAs).toBe('tartaric');
  });

  it('has no place for a salt strength', () => {
    expect(read('L1 salt 2.5 %', { stage: 'lactic', ferment: 'brinedVegetables' })).toEqual({
      type: 'notAReading',
      kind: 'salt',
    });
  });

  it('agrees with the book on what a reading may hold', () => {
    const shared = { asTyped: '', unitTyped: null, unitAssumed: false, notes: [] } as const;
    const empty = {
      ...{
        gravitySg: null,
        gravityInstrument: null,
        gravityCalibrationCelsius: null,
        temperatureCelsius: null,
      },
      ...{ ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null, acidityMethod: null },
      ...{
        acidityUncertainty: null,
        volumeUl: null,
        freeSulfiteMgPerL: null,
        alcoholPercentVolume: null,
        taste: '',
      },
    };
    for (const value of [0.89, 0.9, 1.6, 1.61]) {
      expect(bookTakes({ kind: 'gravity', value, ...shared })).toBe(
        ReadingValues.safeParse({ ...empty, gravitySg: value }).success,
      );
    }
    for (const value of [-0.1, 0, 14, 14.1]) {
      expect(bookTakes({ kind: 'pH', value, ...shared })).toBe(
        ReadingValues.safeParse({ ...empty, ph: value }).success,
      );
    }
    for (const value of [-21, -20, 100, 101]) {
      expect(bookTakes({ kind: 'temperature', value, ...shared })).toBe(
        ReadingValues.safeParse({ ...empty, temperatureCelsius: value }).success,
      );
    }
    for (const value of [0, 1, 100_000_000_000, 100_000_000_001]) {
      expect(bookTakes({ kind: 'volume', value, volumeUl: value, ...shared })).toBe(
        ReadingValues.safeParse({ ...empty, volumeUl: value }).success,
      );
    }
  });
});
