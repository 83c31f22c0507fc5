import { fireEvent, render, screen } from '@testing-library/svelte';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { BookFinding } from '#core/contract/shelves.ts';
import { NOTHING_READ } from '#core/ledger/act.ts';
import { EntryId, type VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import {
  sayBlendAge,
  sayDoubt,
  sayFinding,
  sayStepLines,
  sayTolerance,
  sayWeighed,
} from '#renderer/words/book-check-words.ts';
import { begun, DAY, NOW, openDeskOn, scratchFolder, type TestDesk } from '../../main/desk-for-tests.ts';
import { hands, teachDialogs, type Hands } from '../acts/acts-desk.ts';

const open: { desk: TestDesk | null } = { desk: null };
vi.mock('#renderer/backend/call.ts', () => ({
  client: new Proxy(
    {},
    { get: (_, capability) => Reflect.get(open.desk?.client ?? {}, capability) as unknown },
  ),
  backend: {},
}));
const { default: BookCheckCard } = await import('#renderer/book-check/BookCheckCard.svelte');

const rules = HOUSE_RULES_AT_FIRST;
const plain = (text: string | null): string => (text ?? '').replaceAll('\u00A0', ' ');
const finding = (over: Partial<BookFinding> = {}): BookFinding => ({
  ...{ what: 'alcohol', readingId: EntryId.parse('018f3a5c-7b1e-7c22-9d3f-0a1b2c3d4e5f'), atMs: NOW },
  ...{ bookValue: 0, readValue: 4.8, tolerance: 0.5, doubt: null },
  steps: [{ kind: 'ferment', sugarUg: 330_000_000, yieldPpm: 910_000 }],
  ...over,
});

describe('what the book weighs', () => {
  // 4 L with 400 g of sugar: 100 g in a litre.
  test('is told by component, in litres for what is dissolved and in per cent for water and the unknown', () => {
    const massesUg = { water: 3_600_000_000, sugar: 400_000_000, unassayed: 1_000_000 };
    const lines = sayWeighed({ massesUg, volumeUl: 4_000_000 }, rules);
    expect(lines.map(({ name, share }) => `${name}: ${plain(share)}`)).toEqual([
      ...['water: 90.0 %', 'sugar: 100.0 g/L', 'never measured: under 0.1 %'],
    ]);
    expect(plain(lines[1]?.mass ?? '')).toContain('400');
  });

  test('has one age, or of a blend the mean with its youngest and oldest', () => {
    expect(sayBlendAge({ mean: 12.2, youngest: 12, oldest: 12 })).toBe('It is 12 days old.');
    expect(sayBlendAge({ mean: 400, youngest: 0.2, oldest: 1461 })).toBe(
      'On the mean it is 13 months old; the youngest in it is less than a day, the oldest 4.0 years.',
    );
    expect(sayBlendAge(null)).toContain('does not know');
  });
});

describe('a finding', () => {
  test('says what was read, what the book counts and what would explain it', () => {
    expect(plain(sayFinding(finding(), rules))).toMatch(
      /^The reading of .* says 4\.8 % vol alcohol; the book counts none\. 330 g sugar fermented, yield 91 % of the theory would explain it\.$/u,
    );
    expect(plain(sayTolerance(finding()))).toBe('The reading itself is good to 0.5 % vol.');
  });

  test('does not claim that living work explains what it cannot', () => {
    const short = finding({ doubt: 'moreAlcoholThanSugar' });
    expect(sayFinding(short, rules)).toContain('would explain a part of it');
    expect(sayDoubt('moreAlcoholThanSugar')).toContain('not enough sugar');
    const set = finding({ steps: [{ kind: 'assay', massesUg: { ethanol: 1000 }, whole: false }] });
    expect(sayFinding(set, rules)).not.toContain('explain');
  });

  test('an assay is told by what it sets, beside what the book has', () => {
    const step = { kind: 'assay', massesUg: { sugar: 400_000_000 }, whole: true } as const;
    const lines = sayStepLines(step, { unassayed: 4_000_000_000 }, rules);
    expect(lines.map(({ says, was }) => `${plain(says)}, ${plain(was)}`)).toEqual([
      'Sugar set to 400 g, none',
      'What was never measured set to none, 4 kg',
    ]);
  });
});

describe('the card', () => {
  const scratch = scratchFolder();
  let count = 0;
  let vesselId: VesselId;
  let me: Hands;
  const desk = (): TestDesk => {
    if (open.desk === null) throw new Error('no desk');
    return open.desk;
  };

  beforeAll(teachDialogs);
  beforeEach(async () => {
    localStorage.clear();
    open.desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
    ({ vesselId } = await begun(open.desk));
    me = hands(open.desk);
  });
  afterEach(() => {
    acts.close();
    open.desk?.close();
  });
  afterAll(() => {
    scratch.remove();
  });

  async function show() {
    const { row } = await desk().client.shelves.vessel({ vesselId });
    return render(BookCheckCard, { standing: [row], rules });
  }

  test('agrees in words that promise nothing where nothing was measured', async () => {
    await show();
    await screen.findByText(/That is not a proof/u);
    expect(screen.getByRole('rowheader', { name: 'never measured' })).toBeTruthy();
    expect(screen.queryByRole('button')).toBeNull();
  });

  test('a gravity of the must is written into the book, with its steps shown first', async () => {
    await desk().post(
      { kind: 'recordReading', vesselId, values: { ...NOTHING_READ, gravitySg: 1.05 } },
      NOW - DAY,
    );
    const before = await desk().client.shelves.bookOf({ vesselId });
    expect(before.findings).toHaveLength(1);
    await show();
    await fireEvent.click(await screen.findByRole('button', { name: 'Write it into the book…' }));
    const { request } = acts;
    if (request === null) throw new Error('no form');
    await me.ask(request);
    await me.said(/^Sugar set to/);
    await me.press('Write it into the book');
    const act = await me.written('reconcile');
    expect(act).toMatchObject({ vesselId, readingId: before.findings[0]?.readingId });
    expect(act.steps).toEqual(before.findings[0]?.steps);
    const after = await desk().client.shelves.bookOf({ vesselId });
    expect(after.findings).toEqual([]);
    expect(after.massesUg.sugar).toBeGreaterThan(0);
  });
});
