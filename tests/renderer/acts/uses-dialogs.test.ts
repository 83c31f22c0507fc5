import { waitFor, within } from '@testing-library/svelte';
import { describe, expect, test, vi } from 'vitest';

import type { Verdict } from '#core/contract/verdict.ts';
import type { BatchId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { DAY, NOW } from '../../main/desk-for-tests.ts';
import type { Hands } from './acts-desk.ts';
import { dialogsOnADesk } from './dialogs-on-a-desk.ts';
import { answer, ciderIn, isJustNow, krautIn, vinegarIn } from './working-vessels.ts';

vi.mock('#renderer/backend/call.ts', () => import('./client-of-desk.ts'));

type Inspected = NonNullable<ToldFacts['inspection']>;
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
const cider = (...readings: readonly (readonly [sg: number, daysAgo: number])[]): Promise<VesselId> =>
  ciderIn(desk(), readings);

describe('what is told', () => {
  test('answers what a rule waits for, in one act of whole groups, and the verdict follows', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'tell', vesselId, use: 'giveAway' });
    await me.pick('What was it made from?', 'juice');
    await me.pick('What grows on it?', 'none');
    await me.press('Tell it');
    const act = await me.written('tellFacts');
    expect(act.facts.rawMaterial).toBe('juice');
    expect(act.facts.inspection).toMatchObject({ growth: 'none', smell: null, eels: null });
    expect(isJustNow(act.facts.inspection?.atMs)).toBe(true);
    expect(Object.keys(act.facts).sort()).toEqual(['inspection', 'rawMaterial']);
    const { findings } = await verdict('giveAway', vesselId);
    expect(findings.find(({ ruleId }) => ruleId === 'VIN-06')?.verdict).toBe('ok');
    expect(findings.find(({ ruleId }) => ruleId === 'OFF-01')?.reason).toBe('missing');
  });

  test('begins with what was told before, and what is not touched stays told', async () => {
    const vesselId = await vinegar();
    const storage = { place: 'coolCellar', closedTight: true, testedProcess: null } as const;
    await desk().write('tellFacts', { kind: 'tellFacts', vesselId, facts: { storage } }, NOW - 5 * DAY);
    const struck = { kind: 'tellFacts', vesselId, facts: { rawMaterial: 'aceticAcid' } } as const;
    const { entry } = await desk().post(struck, NOW - 4 * DAY);
    await desk().client.ledger.strike({ requestId: crypto.randomUUID(), entryId: entry.entryId });
    await me.ask({ kind: 'tell', vesselId, use: 'refrigeratePickle' });
    await waitFor(() => {
      expect((me.field('Where is it kept, or will it be kept?') as HTMLSelectElement).value).toBe(
        'coolCellar',
      );
    });
    await me.pick('Where is it kept, or will it be kept?', 'refrigerator');
    await me.press('Tell it');
    expect((await me.written('tellFacts')).facts).toEqual({
      storage: { place: 'refrigerator', closedTight: true, testedProcess: null },
    });
  });

  test('of the vessel itself: whether it is whole, and whether the last cleaner was rinsed out', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'tell', vesselId, use: 'useVessel' });
    await me.said(/Was the last cleaner rinsed out, until nothing smelled of it\?/);
    await me.pick('Is it whole inside?', 'sound');
    await me.press('Tell it');
    const { facts } = await me.written('tellFacts');
    expect(facts.vessel).toMatchObject({ damage: 'sound', glaze: null });
    const { findings } = await verdict('useVessel', vesselId);
    expect(findings.find(({ ruleId }) => ruleId === 'MAT-04')?.verdict).toBe('ok');
    expect(findings.find(({ ruleId }) => ruleId === 'CLN-04')?.reason).toBe('missing');
  });

  test('who gets it with its label is asked where it is given away', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'tell', vesselId, use: 'giveAway' });
    await me.pick('Who gets it with this label?', 'gift');
    await me.press('Tell it');
    expect((await me.written('tellFacts')).facts).toEqual({ labelAudience: 'gift' });
  });

  test('telling nothing new writes nothing, and says so', async () => {
    await me.ask({ kind: 'tell', vesselId: await vinegar(), use: 'giveAway' });
    await me.press('Tell it');
    expect((await me.summary()).textContent).toContain('Nothing new is told yet');
    expect((await lines(1))[0]?.act.kind).not.toBe('tellFacts');
  });

  test('amounts and warmth are read as people write them, and bad ones are said', async () => {
    const vesselId = await krautIn(desk());
    await me.ask({ kind: 'tell', vesselId, use: 'eat' });
    await me.type('How much salt went in?', '60 g');
    await me.type('How much do the vegetables weigh?', '2,4 kg');
    await me.type('How much water went in?', '0 g');
    await me.type('How warm has it stood, on the whole?', '20C');
    await me.type('How long was it warmer than 27 °C?', 'never');
    await me.press('Tell it');
    expect((await me.summary()).textContent).toContain('How long was it warmer than 27 °C?');
    await me.type('How long was it warmer than 27 °C?', '0 h');
    await me.press('Tell it');
    const { facts } = await me.written('tellFacts');
    expect(facts.salting).toEqual({ saltGrams: 60, vegetableGrams: 2400, waterGrams: 0 });
    expect(facts.ferment?.meanCelsius).toEqual({ value: 20, uncertainty: null, method: 'thermometer' });
    expect(await me.typed()).toMatchObject({ 'salting.vegetableGrams': '2,4 kg' });
    const { findings } = await verdict('eat', vesselId);
    expect(findings.find(({ ruleId }) => ruleId === 'VEG-03')?.verdict).toBe('ok');
  });
});

describe('going against a verdict', () => {
  test('wants a reason, keeps it with the date, and changes neither word nor caution', async () => {
    const vesselId = await vinegar();
    const before = await verdict('giveAway', vesselId);
    expect(before.mayBeOverruled).toBe(true);
    await me.ask({ kind: 'overrule', vesselId, use: 'giveAway' });
    await me.said(/its caution still prints on the label/);
    await me.type('My reason', 'ok');
    await me.press('Keep my reason');
    expect((await me.summary()).textContent).toContain('at least three letters');
    await me.type('My reason', 'my sister knows it is young');
    await me.press('Keep my reason');
    expect(await me.written('overrule')).toMatchObject({ vesselId, use: 'giveAway' });
    const after = await verdict('giveAway', vesselId);
    expect(after.word).toBe(before.word);
    expect(after.findings).toEqual(before.findings);
    expect(after.overruled?.reason).toBe('my sister knows it is young');
    expect(isJustNow(after.overruled?.atMs)).toBe(true);
  });

  test('is not even kept where a rule lets no reason stand', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'overrule', vesselId, use: 'can' });
    await me.said(/lets no reason stand against it/);
    await me.press('Keep my reason');
    expect(await me.summary()).toBeTruthy();
    expect((await lines(1))[0]?.act.kind).not.toBe('overrule');
  });
});

describe('a look', () => {
  test('says mould at once from any one sign, and puts the vessel apart', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'look', vesselId });
    await me.said(/Never taste a doubtful jar/);
    await me.mark('Something flat');
    await me.pick('What colour is it?', 'blueGreenBlackPinkOrange');
    await me.said(/Throw all of it out: the liquid, the culture/);
    await me.said(/Source: MLD-01/);
    expect(within(me.dialog()).getByRole('radio', { name: 'Keep it apart in Quarantine' })).toHaveProperty(
      'checked',
      true,
    );
    await me.press('Keep the look');
    expect(await me.written('changeStage')).toMatchObject({ stage: 'quarantine', reason: 'Mould' });
    const [, told] = await lines(2);
    expect(told?.act).toMatchObject({ facts: { inspection: { growth: 'fuzzyOrColoured' } } });
    expect((await verdict('dressSalad', vesselId)).word).toBe('doNotUse');
  });

  test('holds what cannot be told for two days, counted from the first look', async () => {
    const vesselId = await vinegar();
    const inspection: Inspected = {
      ...{ atMs: NOW - DAY, growth: 'cannotTell', undecidedSinceMs: NOW - DAY, smell: 'clean' },
      ...{ solventSinceMs: null, flies: 'none', cover: 'tightCloth', eels: null, texture: null },
    };
    await desk().write('tellFacts', { kind: 'tellFacts', vesselId, facts: { inspection } }, NOW - DAY);
    await me.ask({ kind: 'look', vesselId });
    await me.mark('I cannot tell');
    await me.said(/Hold it for at most two days/);
    await me.said(/Look closer: is it flat, or is it fuzzy/);
    await me.mark('Move it to Held');
    await me.press('Keep the look');
    await me.written('changeStage');
    const [, told] = await lines(2);
    expect(told?.act).toMatchObject({ facts: { inspection: { undecidedSinceMs: NOW - DAY } } });
  });

  test('leaves a mother alone on vinegar, and skims the same disc off a cider', async () => {
    const disc = async (): Promise<void> => {
      await me.mark('Something flat');
      await me.pick('Does it look wet or dry?', 'wet');
      await me.pick('What colour is it?', 'whiteOrCream');
      await me.pick('What shape has it?', 'smoothDisc');
      await me.pick('Where is it?', 'onLiquid');
    };
    await me.ask({ kind: 'look', vesselId: await vinegar() });
    await disc();
    await me.said(/Likely a mother/);
    expect(within(me.dialog()).queryByText('And then')).toBeNull();
    await me.press('Keep the look');
    expect((await me.written('tellFacts')).facts.inspection?.growth).toBe('jellyDisc');
    acts.open({ kind: 'look', vesselId: await cider() });
    await disc();
    await me.said(/A disc of jelly where none belongs/);
    await me.said(/Skim it and watch/);
  });

  test('hears the nose and the flies too, the gravest first', async () => {
    await me.ask({ kind: 'look', vesselId: await vinegar() });
    await me.mark('Nothing grows there');
    await me.pick('Are there fruit flies?', 'larvae');
    await me.pick('How does it smell?', 'solventFaint');
    const found = await me.said(/Flies or their maggots are in it|smells faintly of varnish/);
    expect(found[0]?.textContent).toContain('maggots');
    await me.mark('Nothing more');
    await me.press('Keep the look');
    const { inspection } = (await me.written('tellFacts')).facts;
    expect(isJustNow(inspection?.solventSinceMs)).toBe(true);
  });

  test('wants to know what is on the surface before it is kept', async () => {
    await me.ask({ kind: 'look', vesselId: await vinegar() });
    await me.press('Keep the look');
    expect((await me.summary()).textContent).toContain('or that you cannot tell');
  });
});

describe('heating', () => {
  test('is written with how it was done, by the rules of pasteurising as it is typed', async () => {
    const vesselId = await vinegar();
    await me.ask({ kind: 'heat', vesselId });
    await me.type('Reached by all of it', '150 F');
    await me.type('Held there for', '30');
    await me.pick('What was the pot?', 'sound');
    await answer(me, 'Will it be called pasteurised?', 'Yes');
    await answer(me, 'Is some living mother kept back, unheated?', 'Yes');
    await me.said(/What the rules say of this heating/);
    await me.press('Keep it');
    const act = await me.written('tellFacts');
    expect(act.facts.heating).toMatchObject({ minutes: 30, pot: 'sound', calledPasteurised: true });
    const [, heated] = await lines(2);
    expect(heated?.act).toMatchObject({ kind: 'heat', minutes: 30 });
    expect((heated?.act as { reachedCelsius: number }).reachedCelsius).toBeCloseTo(65.56, 1);
  });

  test('says what is missing or out of range, and keeps what was typed', async () => {
    await me.ask({ kind: 'heat', vesselId: await vinegar() });
    await me.type('Reached by all of it', '5 C');
    await me.press('Keep it');
    expect((await me.summary()).textContent).toContain('between 20 °C and 130 °C');
    expect((await me.summary()).textContent).toContain('for how many minutes');
    expect((me.field('Reached by all of it') as HTMLInputElement).value).toBe('5 C');
  });
});

describe('sealing', () => {
  test('is checked with the bottles chosen, and the gas stands beside what they hold', async () => {
    const vesselId = await cider([1.0, 4], [1.0, 1]);
    await me.ask({ kind: 'bottle', vesselId });
    await me.said(/Not known/);
    await me.pick('Which bottles?', 'heavyBeer');
    await me.type('How much sugar goes in to make it sparkle?', '6 g/L');
    await answer(me, 'Does it still bubble or hiss?', 'No');
    await answer(me, /get warmer/, 'No');
    await me.pick('Is it whole inside?', 'sound');
    await me.press('Tell this and check');
    await me.said(/Told, and checked again/);
    await me.said(/Meets the rule/);
    // One point is left of a ferment that stands: 0.9 + 0.7 + 0.26 × 6 = 3.16, shown rounded up.
    await me.said(/3\.2 volumes of CO2/);
    await me.press(/^Use 5$/);
    await me.press('Carry out');
    expect(await me.written('bottle')).toMatchObject({ bottles: 5, note: '' });
    const { findings } = await verdict('sealInBottle', vesselId);
    expect(findings.find(({ ruleId }) => ruleId === 'PRS-02')?.numbers['volumes']).toBeCloseTo(3.16, 6);
  });

  test('of what is not shown to have stopped wants the bottles loose, or a reason where one may stand', async () => {
    const vesselId = await cider([1.02, 1]);
    await me.ask({ kind: 'bottle', vesselId });
    await me.pick('Which bottles?', 'light');
    await me.type('How much sugar goes in to make it sparkle?', '0');
    await me.said(/More gas could be made than the bottle holds/);
    await me.press('Tell this and check');
    await me.said(/Told, and checked again/);
    await me.press(/^Use 5$/);
    await me.press('Carry out');
    expect((await me.summary()).textContent).toContain('Say how the bottles are closed');
    await me.mark('Sealed tight');
    await me.type('Why they are sealed all the same', 'they stay in the ice house');
    await me.press('Carry out');
    await me.written('bottle');
    const [, against] = await lines(2);
    expect(against?.act).toMatchObject({ kind: 'overrule', use: 'sealInBottle' });
  });

  test('in jars of what is still sweet lets no reason stand', async () => {
    await me.ask({ kind: 'bottle', vesselId: await cider([1.02, 1]) });
    await me.pick('Which bottles?', 'unrated');
    await me.press('Tell this and check');
    await me.said(/Told, and checked again/);
    await me.press(/^Use 5$/);
    await me.mark('Sealed tight');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toContain('lets no reason stand');
    await me.mark('Loosely, or under a water lock');
    await me.press('Carry out');
    expect((await me.written('bottle')).note).toBe('Closed loosely.');
  });
});

describe('a closure', () => {
  test('is weighed by the rule on gas while yeast works', async () => {
    const vesselId = await cider();
    await me.ask({ kind: 'changeClosure', vesselId });
    await me.mark('Bung');
    await me.said(/While it makes gas/);
    await me.said(/Source: PRS-04/);
    await me.mark('Lid');
    await me.mark('Loose');
    await me.press('Change it');
    expect((await me.written('tellFacts')).facts.closing).toEqual({
      closure: 'looseLid',
      headspacePercent: null,
    });
    acts.open({ kind: 'changeClosure', vesselId });
    await me.mark('Water lock');
    await me.press('Change it');
    // What was told of the lid no longer holds, so it is taken back with the change.
    expect((await me.written('tellFacts')).facts.closing?.closure).toBeNull();
  });
});
