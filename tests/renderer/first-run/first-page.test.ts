import { cellarContract, FirstShelves } from '#core/contract/cellar.ts';
import { firstPageFor, readFirstPage, sayShelves, type FirstPage } from '#renderer/first-run/first-page.ts';
import { describe, expect, it } from 'vitest';

const page = (change: Partial<FirstPage> = {}): FirstPage => ({ ...firstPageFor('en-GB'), ...change });

describe('the first page', () => {
  it('comes with the measures of the system', () => {
    expect(firstPageFor('en-US')).toMatchObject({ volume: 'us', temperature: 'F' });
    expect(firstPageFor('de-DE')).toMatchObject({ volume: 'metric', temperature: 'C' });
    expect(firstPageFor('en')).toMatchObject({ volume: 'metric', temperature: 'C' });
  });

  it('is ready as it lies there', () => {
    const reading = readFirstPage(page());
    if (reading.type !== 'ready') throw new Error('not ready');
    expect(FirstShelves.parse(reading.input.shelves)).toEqual({
      placeName: 'Pantry',
      shelfCount: 3,
      positions: 8,
    });
    expect(cellarContract.begin).toBeDefined();
  });

  it.each(['', '0', ' 00 '])('begins without shelves when none are wanted: %j', (shelfCount) => {
    const reading = readFirstPage(page({ shelfCount, placeName: '', positions: 'x' }));
    expect(reading.type === 'ready' && reading.input.shelves).toBeNull();
  });

  it.each([
    [{ name: '  ' }, 'name'],
    [{ name: 'x'.repeat(121) }, 'name'],
    [{ placeName: '' }, 'placeName'],
    [{ shelfCount: '41' }, 'shelfCount'],
    [{ shelfCount: 'three' }, 'shelfCount'],
    [{ shelfCount: '-1' }, 'shelfCount'],
    [{ shelfCount: '2.5' }, 'shelfCount'],
    [{ positions: '' }, 'positions'],
    [{ positions: '201' }, 'positions'],
  ] as const)('names the field that needs mending: %j', (change, field) => {
    const reading = readFirstPage(page(change));
    expect(reading.type === 'wrong' && Object.keys(reading.errors)).toEqual([field]);
  });

  it('names every field at once', () => {
    const reading = readFirstPage(page({ name: '', placeName: '', shelfCount: 'x', positions: 'y' }));
    expect(reading.type === 'wrong' && Object.keys(reading.errors)).toHaveLength(4);
  });

  it('says what the numbers come to', () => {
    expect(sayShelves(page())).toBe('3 shelves of 8 places.');
    expect(sayShelves({ shelfCount: '1', positions: '1' })).toBe('1 shelf of 1 place.');
    expect(sayShelves({ shelfCount: '', positions: '8' })).toContain('No shelves yet');
    expect(sayShelves({ shelfCount: 'x', positions: '8' })).toBeNull();
  });
});
