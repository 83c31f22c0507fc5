import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { transferFit } from '#renderer/words/fit-words.ts';
import { sayForesightShort } from '#renderer/words/foresight-short-words.ts';
import { sayContinued, sayGroup, sayGroupSummary, sayOverview } from '#renderer/words/group-words.ts';
import { sayOrdinal, sayShare } from '#renderer/words/share-words.ts';
import { fullPercent, isResting, sayTicket, sayVessel, vesselTitle } from '#renderer/words/vessel-words.ts';
import { emptyRow, loose, row, shelf } from '../shelves/rows-for-tests.ts';

const DAY = 86_400_000;
const today = { startMs: 100 * DAY, endMs: 101 * DAY };
const house = METRIC_HOUSE;

describe('a vessel in words', () => {
  it('is told in one order: what, stage, vessel, how full, value, due, where', () => {
    const held = row(4, {
      ...{
        batchName: 'Damson wine',
        stage: 'held',
        silhouette: 'demijohn',
        capacityUl: 10e6,
        volumeUl: 9.6e6,
      },
      ...{ headline: { kind: 'gravity', sg: 1.03, atMs: 0, uncertainty: null }, spot: 'B4' },
      due: { act: 'rack', earliestMs: 0, idealMs: 0, latestMs: 97 * DAY, why: 'rule' },
    });
    expect(sayVessel(held, house, today)).toBe(
      'Damson wine, Held, 10 L demijohn, 96 % full, gravity 1.030, 3 days late: rack off the lees. B4.',
    );
  });

  it('says a cover against the stage right after the stage', () => {
    const said = sayVessel(row(1, { closureConcern: 'motherWithoutAir' }), house, today);
    expect(said).toMatch(/^Apple vinegar 1, Vinegar ferment, Held: no air for the mother, 2 L jar/);
  });

  it('is called by its batch, its own name or its number', () => {
    expect(vesselTitle(row(1))).toBe('Apple vinegar 1');
    expect(vesselTitle(emptyRow(7, { vesselName: 'Big jug' }))).toBe('Big jug');
    expect(vesselTitle(emptyRow(7))).toBe('Vessel 7');
    expect(sayVessel(emptyRow(7, { spot: null }), house, today)).toBe(
      'Vessel 7, Empty, 2 L jar. Not placed.',
    );
  });

  it('is never said to be empty with something in it, nor full with room', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_999_999 }), (volumeUl) => {
        const percent = fullPercent({ volumeUl, capacityUl: 2_000_000 });
        expect(percent).toBeGreaterThanOrEqual(1);
        expect(percent).toBeLessThanOrEqual(99);
      }),
    );
    expect(fullPercent({ volumeUl: 0, capacityUl: 5 })).toBe(0);
    expect(fullPercent({ volumeUl: 5, capacityUl: 5 })).toBe(100);
  });

  it('has a ticket with the last value and the age, and with its place away from the shelf', () => {
    const wine = row(1, { headline: { kind: 'gravity', sg: 0.994, atMs: 0, uncertainty: null }, spot: 'B5' });
    expect(sayTicket(wine, house, today.startMs)).toBe('0.994 · month 3');
    expect(sayTicket(wine, house, today.startMs, true)).toBe('B5 · 0.994');
    expect(sayTicket(emptyRow(2), house, today.startMs)).toMatch(/^empty, 2.L$/);
    const mother = row(3, { stage: 'culture', fedAtMs: 91 * DAY });
    expect(sayTicket(mother, house, today.startMs)).toBe('fed 9 d ago');
    expect(sayTicket({ ...mother, fedAtMs: null }, house, today.startMs)).toBe('culture · month 3');
  });
});

describe('a vessel that is clean, rests or is out', () => {
  const resting = emptyRow(7, { cleanedAtMs: 95 * DAY, cleanedHow: 'washed', restUntilMs: 105 * DAY });
  const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

  it('says so on its ticket, until the day has come', () => {
    expect(sayTicket(resting, house, today.startMs)).toMatch(/^rests until /);
    expect(plain(sayTicket(resting, house, 105 * DAY))).toBe('clean, 2 L');
    expect(sayTicket({ ...resting, holder: 'the neighbour' }, house, today.startMs)).toBe(
      'with the neighbour',
    );
    const lent = row(1, { holder: 'the neighbour', startedAtMs: 90 * DAY });
    expect(plain(sayTicket(lent, house, today.startMs))).toMatch(/^with the neighbour · day /);
  });

  it('says so in its name', () => {
    expect(sayVessel({ ...resting, holder: 'the neighbour' }, house, today)).toMatch(
      /^Vessel 7, Empty, 2 L jar, resting until .*, with the neighbour\. A7\.$/,
    );
    expect(isResting({ stage: 'vinegar', restUntilMs: 105 * DAY }, today.startMs)).toBe(false);
    expect(isResting(resting, 105 * DAY)).toBe(false);
  });
});

describe('whether a vessel can take from another', () => {
  const from = row(1, { volumeUl: 1_500_000 });

  it('says how much room there is', () => {
    expect(transferFit(from, emptyRow(2), house)).toMatchObject({ suits: true });
    expect(transferFit(from, emptyRow(2), house).words).toMatch(/^2.L free: transfer here$/);
    expect(transferFit(from, row(2, { volumeUl: 1_000_000 }), house).words).toMatch(/^Holds 1.L of 1.5.L$/);
  });

  it('says why one cannot', () => {
    expect(transferFit(from, from, house)).toMatchObject({ suits: false, words: 'The same vessel' });
    expect(transferFit(from, row(2, { volumeUl: 2_000_000 }), house)).toMatchObject({
      ...{ suits: false, words: 'Full: no room' },
    });
    expect(transferFit(emptyRow(1), emptyRow(2), house)).toMatchObject({ suits: false });
  });
});

describe('shelves in words', () => {
  it('have a name and what stands on them', () => {
    expect(sayGroup(shelf(1, 8, 3), 'place')).toBe('Pantry, shelf 1');
    expect(sayGroup(loose('unplaced', 2), 'place')).toBe('Not placed');
    expect(sayGroup(loose('yeast', 2), 'stage')).toBe('Yeast ferment');
    expect(sayGroup(loose('week', 2), 'due')).toBe('This week');
    expect(sayGroupSummary({ ...shelf(1, 8, 3), dueCount: 1 }, 'place')).toBe('3 in use · 1 due');
    expect(sayGroupSummary(loose('late', 1), 'due')).toBe('1 vessel');
    expect(sayContinued(13, 24)).toBe('continued 13–24');
  });

  it('the cellar is told in one sentence', () => {
    const overview = { vesselCount: 21, inUse: 20, lateCount: 1, todayCount: 2 };
    expect(
      sayOverview({ ...overview, grouping: 'place', groups: [], nowMs: 0, countsByStage: {} as never }),
    ).toBe('20 of 21 vessels in use, 1 late, 2 due today');
  });
});

describe('shares and numbers', () => {
  it('are fractions where plain, else per cent, and never nothing for something', () => {
    expect(sayShare(5, 5)).toBe('all');
    expect(sayShare(2_000_000, 3_000_000)).toBe('2/3');
    expect(sayShare(333, 1000)).toBe('33.3 %');
    expect(sayShare(1, 9_000_001)).toBe('under 0.1 %');
    expect(sayShare(9_000_000, 9_000_001)).toBe('over 99.9 %');
  });

  it('count pulls', () => {
    expect([1, 2, 3, 4, 11, 12, 13, 21, 22, 101].map(sayOrdinal)).toEqual([
      ...['1st', '2nd', '3rd', '4th', '11th', '12th', '13th', '21st', '22nd', '101st'],
    ]);
  });
});

describe('the forecast in short', () => {
  const foresight = {
    ...{ originalGravitySg: 1.048, measuredAtMs: 0, brix: 11.9 },
    ...{ alcoholTheoryPercent: 6.74, alcoholPlanPercent: 6.21, alcoholPlanUncertainty: 0.3 },
    ...{ alcoholNowPercent: null, alcoholNowUncertainty: null },
    ...{
      acidityTheoryGramsPer100Ml: 6.9,
      acidityPlanLowGramsPer100Ml: 4.8,
      acidityPlanHighGramsPer100Ml: 6.1,
    },
  };

  it('names plan and theory apart, and the acid', () => {
    expect(sayForesightShort(foresight)).toEqual([
      'May become about 6.2 % vol by plan, 6.7 in theory.',
      'As vinegar then 4.8 to 6.1 % as acetic by plan; at most 6.9 in theory.',
    ]);
  });

  it('says what is there now only where a later gravity shows it', () => {
    const now = { ...foresight, alcoholNowPercent: 4.02, alcoholNowUncertainty: 0.5 };
    expect(sayForesightShort(now)[0]).toBe('Now about 4.0 ± 0.5 % vol, from the fall in gravity.');
  });
});
