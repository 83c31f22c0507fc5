import type { DueCheck } from '#core/contract/shelves.ts';
import type { VesselDetail } from '#core/contract/shelves.ts';
import type { CultureRow } from '#core/contract/cultures.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { Verdict } from '#core/contract/verdict.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { dueLines } from '#renderer/paper/due-lines.ts';
import { filledBy } from '#renderer/paper/filled-by.ts';
import { freePositions } from '#renderer/paper/free-positions.ts';
import { cautionsOfVerdicts, paperCautions, sayDueDay, sayNotAsked } from '#renderer/words/paper-words.ts';
import { describe, expect, it } from 'vitest';
import { NOW_MS, shelfRow, uuid } from '../fake-cellar.ts';

const DAY_MS = 86_400_000;
const at = new Date(NOW_MS);
const startMs = new Date(at.getFullYear(), at.getMonth(), at.getDate()).getTime();
const today = { startMs, endMs: startMs + DAY_MS };

const due = (act: DueCheck['act'], inDays: number, latestInDays = inDays): DueCheck => ({
  ...{ act, why: 'practice', earliestMs: startMs },
  ...{ idealMs: startMs + inDays * DAY_MS, latestMs: startMs + latestInDays * DAY_MS },
});

describe('the due list', () => {
  const jar = shelfRow({ vesselId: uuid(1) as VesselId, due: due('rack', -3) });
  const other = shelfRow({ vesselId: uuid(2) as VesselId, due: due('gravity', 0, 2) });
  const details = new Map([
    [jar.vesselId, { due: [due('rack', -3), due('taste', 4), due('bottle', 30)] } as unknown as VesselDetail],
  ]);
  const lines = (reach: 'today' | 'week' | 'all') =>
    dueLines({ rows: [jar, other], cultures: [], details }, reach, today).map(({ group, lines: some }) => [
      group,
      some.map(({ check }) => check.act),
    ]);

  it('tells all that is due of a vessel, and the most pressing alone where no more was asked', () => {
    expect(lines('all')).toEqual([
      ['late', ['rack']],
      ['today', ['gravity']],
      ['week', ['taste']],
      ['later', ['bottle']],
    ]);
  });

  it('looks ahead as far as is wished and never leaves out what is late', () => {
    expect(lines('today').map(([group]) => group)).toEqual(['late', 'today']);
    expect(lines('week').map(([group]) => group)).toEqual(['late', 'today', 'week']);
  });

  it('tells a culture with its jar, and by itself when its jar has nothing due', () => {
    const culture = { cultureId: uuid(5), due: due('feed', 0), keptIn: [jar] } as unknown as CultureRow;
    const alone = { ...culture, keptIn: [] };
    const feeds = (row: CultureRow) =>
      dueLines({ rows: [jar], cultures: [row], details: new Map() }, 'all', today)
        .flatMap(({ lines: some }) => some)
        .filter(({ check }) => check.act === 'feed').length;
    expect(feeds(culture)).toBe(0);
    expect(feeds(alone)).toBe(1);
  });
});

describe('free places of a shelf', () => {
  it('takes runs together', () => {
    const rows = [1, 2, 4].map((position) => ({ position }));
    expect(freePositions({ letter: 'A', positions: 8 }, rows)).toBe('A3, A5 to A8');
    expect(freePositions({ letter: 'A', positions: 4 }, [...rows, { position: 3 }])).toBe('');
    expect(freePositions({ letter: null, positions: null }, [])).toBe('');
  });
});

describe('cautions on paper', () => {
  const verdict = (change: Partial<Verdict>): Verdict => ({
    ...{ use: 'can', word: 'notKnown', keptApart: false, findings: [], measureNext: null },
    ...{ mayBeOverruled: true, overruled: null },
    ...change,
  });
  const sulfites = verdict({
    findings: [
      {
        ...{ ruleId: 'WIN-01', verdict: 'caution', reason: null, sayKey: 'WIN-01.x' },
        ...{ numbers: {}, sourceIds: [] },
      },
    ],
  });

  it('are those of every verdict, that it is kept apart first, none twice', () => {
    expect(cautionsOfVerdicts([sulfites, verdict({ keptApart: true }), sulfites])).toEqual([
      'Kept apart: do not use.',
      'Contains sulfites.',
    ]);
  });

  it('begin with what the shelf itself shows: kept apart, held, a closure that works against it', () => {
    const row = { stage: 'quarantine', closureConcern: null } as const;
    expect(paperCautions(row, undefined)).toEqual(['Kept apart: do not use.']);
    expect(paperCautions({ stage: 'held', closureConcern: null }, undefined)[0]).toMatch(/^Held/);
    const shut = paperCautions(
      { stage: 'vinegar', closureConcern: 'motherWithoutAir' },
      { verdicts: [sulfites] },
    );
    expect(shut).toHaveLength(2);
    expect(shut[0]).toMatch(/needs air/);
  });

  it('says for how many vessels it could not ask', () => {
    expect(sayNotAsked(1)).toContain('1 vessel.');
    expect(sayNotAsked(12)).toContain('12 vessels.');
  });
});

describe('when something is due, on paper', () => {
  it('says how late, today, or the day', () => {
    expect(sayDueDay(due('rack', -3), today)).toMatch(/^3 days late, since \d{4}-\d\d-\d\d$/);
    expect(sayDueDay(due('rack', 0, 2), today)).toMatch(/^today, \d{4}-\d\d-\d\d$/u);
    expect(sayDueDay(due('rack', 5), today)).toMatch(/^\d{4}-\d\d-\d\d$/);
  });
});

describe('what an act has filled', () => {
  const posted = (act: object): Pick<Posted, 'entry'> =>
    ({ entry: { entryId: uuid(9) as EntryId, act } }) as unknown as Pick<Posted, 'entry'>;

  it('is the bottles, or the vessels the liquid went to', () => {
    expect(filledBy(posted({ kind: 'bottle' }))).toEqual([{ kind: 'lot', lotId: uuid(9) }]);
    expect(filledBy(posted({ kind: 'transfer', toVesselId: uuid(2) }))).toEqual([
      { kind: 'vessel', vesselId: uuid(2) },
    ]);
    const parts = [{ toVesselId: uuid(2) }, { toVesselId: uuid(3) }];
    expect(filledBy(posted({ kind: 'split', parts }))).toHaveLength(2);
    expect(filledBy(posted({ kind: 'recordReading' }))).toEqual([]);
  });
});
