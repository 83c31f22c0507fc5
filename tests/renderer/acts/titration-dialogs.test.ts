import { fireEvent, screen, waitFor, within } from '@testing-library/svelte';
import { describe, expect, test, vi } from 'vitest';

import type { Verdict } from '#core/contract/verdict.ts';
import type { BatchId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { DAY, LITRE } from '../../main/desk-for-tests.ts';
import type { Hands } from './acts-desk.ts';
import { dialogsOnADesk } from './dialogs-on-a-desk.ts';
import { answer, isJustNow, krautIn, vinegarIn } from './working-vessels.ts';

vi.mock('#renderer/backend/call.ts', () => import('./client-of-desk.ts'));

let at: { shelfId: ShelfId; vesselId: VesselId; batchId: BatchId };
let me: Hands;

const desk = dialogsOnADesk((given) => {
  ({ at, me } = given);
}, 'runs');
const verdict = async (use: string, vesselId = at.vesselId): Promise<Verdict> => {
  const { verdicts } = await desk().client.shelves.vessel({ vesselId });
  const found = verdicts.find((each) => each.use === use);
  if (found === undefined) throw new Error(`no verdict ${use}`);
  return found;
};
const lines = async (limit = 5) =>
  (await desk().client.ledger.entries({ about: null, beforeSequence: null, limit })).entries;

const vinegar = (name?: string): Promise<VesselId> => vinegarIn(desk(), name);

/** Fills in the steps before the readings are typed. */
async function untilReadings(over: { readonly normality?: string } = {}): Promise<void> {
  await me.press(/^Next: The kit/);
  await me.mark('A burette');
  await me.mark(over.normality ?? '0.1 N');
  await me.type('Last checked against a standard', '30 d ago');
  await me.press(/^Next: The sample/);
  await me.pick('Counted as', 'acetic');
  await me.type('Sample', '5');
  await answer(me, /Is it fizzy/, 'No');
  await answer(me, /so dark/, 'No');
  await me.mark('The change of colour');
  await me.press(/^Next: A blank/);
  await me.type('Base the blank took', '0,1');
  await me.press(/^Next: Titrate/);
}

describe('a titration', () => {
  test('is walked through, says its result with its error, and meets what rule MEAS-06 asks', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'titrate', vesselId });
    await me.said(/Goggles on, gloves on/);
    await untilReadings();
    await me.type('Base used, first time', '41.4');
    await me.type('Base used, second time', '41.6');
    await me.said(/so far/);
    await me.press(/^Next: The result/);
    // (41.5 − 0.1) mL × 0.1 × 60.05 ÷ (10 × 5) = 4.972 g/100 mL, by hand.
    await me.said(/\(\(41\.4 \+ 41\.6\) ÷ 2 − 0\.1\) mL × 0\.1 N × 60\.05/);
    await me.said(/Everything is written down that rule MEAS-06 asks/);
    await me.press('Keep the result');
    const { values } = await me.written('recordReading');
    expect(values.acidityGramsPer100Ml).toBeCloseTo(4.972, 2);
    expect(values.acidityMethod).toBe('burette');
    expect(values.acidityUncertainty ?? 0).toBeGreaterThan(0.1);
    expect(values.detail?.titration).toMatchObject({
      ...{ sampleMl: 5, titrantMl: [41.4, 41.6], blankMl: 0.1, normality: 0.1, endPoint: 'colour' },
      ...{ darkSample: false, fizzySample: false },
    });
    expect(isJustNow((values.detail?.titration?.baseCheckedAtMs ?? 0) + 30 * DAY)).toBe(true);
    const { findings } = await verdict('dressSalad', vesselId);
    expect(findings.find(({ ruleId }) => ruleId === 'MEAS-06')?.verdict).toBe('ok');
  });

  test('never takes the strength of the base for granted, and refuses one that blinds', async () => {
    await me.ask({ kind: 'titrate', vesselId: await vinegar() });
    await me.press(/^Next: The kit/);
    await me.mark('A syringe kit');
    await me.press(/^Next: The sample/);
    expect((await me.summary()).textContent).toContain('doubles or halves the result');
    await me.mark('Another');
    await me.type('Its strength', '2 N');
    await me.press(/^Next: The sample/);
    expect((await me.summary()).textContent).toContain('rule CLN-03');
    await me.type('Its strength', '0,5 N');
    await me.press(/^Next: The sample/);
    await me.said(/Step 3 of 6/);
    await me.press('Back');
    await me.said(/Step 2 of 6/);
  });

  test('points out a reading that stands apart, and drops none', async () => {
    await me.ask({ kind: 'titrate', vesselId: await vinegar() });
    await untilReadings();
    await me.type('Base used, first time', '41.4');
    await me.type('Base used, second time', '41.5');
    await me.type('Base used, third time', '41.45');
    await me.type('Base used, fourth time', '45');
    await me.said(/Reading 4, 45\.00.mL, stands/);
    await me.press(/^Next: The result/);
    await me.press('Keep the result');
    expect((await me.written('recordReading')).values.detail?.titration?.titrantMl).toHaveLength(4);
  });

  test('says when no rule will use it: colour in the dark, gas, an old base', async () => {
    await me.ask({ kind: 'titrate', vesselId: await vinegar() });
    await untilReadings();
    await me.press('Back');
    await me.press('Back');
    await answer(me, /so dark/, 'Yes');
    await me.said(/Use a pH meter and stop at 8\.2/);
    await me.press(/^Next: A blank/);
    await me.press(/^Next: Titrate/);
    await me.type('Base used, first time', '40');
    await me.press(/^Next: The result/);
    await me.said(/Colour cannot be told in a dark sample/);
  });

  test('is kept as a draft with the step it stood at', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'titrate', vesselId });
    await untilReadings();
    await me.type('Base used, first time', '41.4');
    await fireEvent.click(
      within(me.dialog()).getAllByRole('button', { name: 'Close' }).at(-1) as HTMLElement,
    );
    await waitFor(() => expect(screen.queryByRole('dialog')).toBeNull());
    acts.open({ kind: 'titrate', vesselId });
    await screen.findByRole('dialog');
    await me.said(/This is what you typed before/);
    expect((me.field('Base used, first time') as HTMLInputElement).value).toBe('41.4');
  });

  test('in the pantry needs single presses for the millilitres', async () => {
    await cellar.load();
    await cellar.settle({ ...cellar.rules, pantry: true });
    await me.ask({ kind: 'titrate', vesselId: await vinegar() });
    await untilReadings();
    for (const key of ['4', '1', 'point', '5']) await me.press(key);
    expect((me.field('Base used, first time') as HTMLInputElement).value).toBe('41.5');
  });
});

describe('an evening of samples', () => {
  async function table(): Promise<{ one: VesselId; two: VesselId }> {
    const one = await vinegar('Plum vinegar');
    const two = await vinegar('Pear vinegar');
    await me.ask({ kind: 'evening', vesselIds: [one, two] });
    await me.mark('A burette');
    await me.mark('0.1 N');
    await me.mark('pH 8.2 on a meter');
    return { one, two };
  }
  const row = async (n: number, texts: readonly string[]): Promise<void> => {
    await me.type(`Sample, row ${n}`, texts[0] ?? '');
    await me.pick(`Gas, row ${n}`, 'none');
    await me.pick(`Colour, row ${n}`, 'no');
    for (const [i, text] of texts.slice(1).entries()) {
      await me.type(`Base used, row ${n}, ${['first', 'second', 'third'][i] ?? ''} time`, text);
    }
  };

  test('begins with a standard, and writes one reading for each row', async () => {
    const { one, two } = await table();
    await me.pick('Standard', 'phthalate');
    await me.type('Weighed', '0.4084');
    await me.type('Base the standard took', '20.5');
    // 1000 × 0.4084 ÷ (204.2212 × 20.5) = 0.09755 N, by hand.
    await me.said(/0\.0976 N/);
    await me.said(/tonight counts as the check of the base/);
    await row(1, ['5', '41.4', '41.6']);
    await row(2, ['5', '35']);
    await me.press('Save all');
    await me.written('recordReading');
    const readings = await lines(2);
    expect(readings.map(({ act }) => act.kind)).toEqual(['recordReading', 'recordReading']);
    expect(new Set(readings.map(({ act }) => ('vesselId' in act ? act.vesselId : '')))).toEqual(
      new Set([one, two]),
    );
    const [pear] = readings;
    if (pear?.act.kind !== 'recordReading') throw new Error('no reading');
    const { detail, acidityGramsPer100Ml } = pear.act.values;
    expect(detail?.titration?.normality).toBeCloseTo(0.09755, 4);
    expect(isJustNow(detail?.titration?.baseCheckedAtMs)).toBe(true);
    expect(acidityGramsPer100Ml).toBeCloseTo((35 * 0.09755 * 60.052) / 50, 2);
    const { findings } = await verdict('dressSalad', one);
    expect(findings.find(({ ruleId }) => ruleId === 'MEAS-06')?.verdict).toBe('ok');
  });

  test('a standard far off the bottle is asked about, and a known vinegar serves as well', async () => {
    await table();
    await me.pick('Standard', 'vinegar');
    await me.type('Its strength, as acetic', '5 %');
    await me.type('Of it titrated', '5');
    await me.type('Base the standard took', '4.1');
    await row(1, ['5', '41.4']);
    await me.press('Save all');
    expect((await me.summary()).textContent).toContain('One of the numbers is wrong');
    await me.type('Base the standard took', '48');
    await me.said(/They do not agree/);
  });

  test('when one row would be refused none is written, and the row is named', async () => {
    const { two } = await table();
    await me.pick('Standard', 'none');
    await row(1, ['5', '41.4']);
    await row(2, ['5', '40']);
    const held = { kind: 'discard', vesselId: two, volumeUl: 4 * LITRE, reason: 'spilled' } as const;
    await desk().post(held);
    await me.press('Save all');
    const summary = await me.summary();
    await waitFor(() => {
      expect(summary.textContent).toContain('Vessel, row 2');
    });
    expect(summary.textContent).toContain('is empty');
    expect((await lines(1))[0]?.act.kind).toBe('discard');
    await fireEvent.click(within(summary).getByRole('link', { name: 'Vessel, row 2' }));
    expect(document.activeElement).toBe(me.field('Vessel, row 2'));
  });

  test('takes more rows up to ten, and no vessel twice', async () => {
    const { one } = await table();
    for (let i = 4; i <= 10; i += 1) await me.press('One more sample');
    expect(within(me.dialog()).queryByRole('button', { name: 'One more sample' })).toBeNull();
    await me.pick('Standard', 'none');
    await row(1, ['5', '41.4']);
    await row(2, ['', '40']);
    await me.press('Save all');
    expect((await me.summary()).textContent).toContain('Sample, row 2');
    expect(one).toBeTruthy();
  });
});

describe('a reading with its detail', () => {
  test('keeps errors, methods, salt and total SO2 with their values', async () => {
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.type('Gravity', '1.048');
    await me.type('Error of the gravity', '0.001');
    await me.type('Alcohol, measured', '6.2 %');
    await me.pick('Alcohol found by', 'ebulliometer');
    await me.type('Total SO2', '60 mg/L');
    await me.type('Salt, measured', '2,5 %');
    await me.press('Keep');
    const { values } = await me.written('recordReading');
    expect(values.detail).toMatchObject({
      ...{ gravityUncertainty: 0.001, alcoholMethod: 'ebulliometer', totalSulfiteMgPerL: 60 },
      ...{ saltPercent: 2.5, titration: null, phUncertainty: null },
    });
  });

  test('salt alone is a reading, and an error without sense is said', async () => {
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.type('Salt, measured', '3 %');
    await me.type('Error of the pH', '9');
    await me.press('Keep');
    expect((await me.summary()).textContent).toContain('Error of the pH');
    await me.type('Error of the pH', '');
    await me.press('Keep');
    expect((await me.written('recordReading')).values.detail?.saltPercent).toBe(3);
  });

  test('of vegetables says where the sample came from', async () => {
    const vesselId = await krautIn(desk());
    await me.ask({ kind: 'reading', vesselId });
    await me.type('pH', '3.9');
    await me.pick('pH read with', 'meterToday');
    await me.pick('pH sample taken from', 'brine');
    await me.said(/The brine turns sour before the vegetables do/);
    await me.pick('pH sample taken from', 'blended');
    await me.press('Keep');
    expect((await me.written('recordReading')).values.detail?.phSampleFrom).toBe('blended');
    expect(screen.queryByRole('dialog')).toBeNull();
  });
});
