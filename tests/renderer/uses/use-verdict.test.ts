import { fireEvent, render, screen, within } from '@testing-library/svelte';
import { afterEach, describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { Finding, Verdict } from '#core/contract/verdict.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { nextActs } from '#renderer/uses/next-acts.ts';
import UsesList from '#renderer/uses/UsesList.svelte';
import { usesInOrder } from '#renderer/uses/uses-in-order.ts';
import UseVerdict from '#renderer/uses/UseVerdict.svelte';
import { asksToLook, wantedFacts } from '#renderer/uses/wanted-facts.ts';

const rules = HOUSE_RULES_AT_FIRST;
const vesselId = '019a0000-0000-7000-8000-000000000001' as VesselId;

const found = (ruleId: string, verdict: Finding['verdict'], reason: string, numbers = {}): Finding => ({
  ...{ ruleId, verdict, reason, sayKey: `${ruleId}.${reason}`, numbers, sourceIds: ['S11'] },
});
const verdictOf = (word: Verdict['word'], over: Partial<Verdict> = {}): Verdict => ({
  ...{ use: 'can', word, measureNext: null, mayBeOverruled: false, keptApart: false, overruled: null },
  findings: [found('CAN-01', 'do_not', 'category', { origin: 'home_made' })],
  ...over,
});
const opened = async (verdict: Verdict): Promise<HTMLElement> => {
  const { container } = render(UseVerdict, { verdict, rules, vesselId, level: 3 });
  await fireEvent.click(within(container).getByRole('button'));
  return container;
};

afterEach(() => {
  acts.close();
});

describe('one use', () => {
  test('says its use and its word in one line, and opened has the other three lines in place', async () => {
    const { container } = render(UseVerdict, { verdict: verdictOf('doNotUse'), rules, vesselId, level: 3 });
    const button = screen.getByRole('button', { name: /For canning and shelf pickles Do not use/u });
    expect(button.getAttribute('aria-expanded')).toBe('false');
    expect(container.querySelector('.lines')?.classList.contains('shut')).toBe(true);
    await fireEvent.click(button);
    expect(button.getAttribute('aria-expanded')).toBe('true');
    const terms = within(container).getAllByRole('term');
    expect(terms.map((term) => term.textContent)).toEqual(['Why', 'Measure next', 'Source']);
    expect(within(container).getByText(/nothing is canned with it/u)).toBeTruthy();
    expect(within(container).getByText(/Penn State Extension/u)).toBeTruthy();
  });

  test.each([
    ['notKnown', 'path[stroke-dasharray]'],
    ['notShownSafeYet', 'path:not([stroke-dasharray])'],
    ['meetsTheRule', 'rect'],
    ['doNotUse', 'path + path'],
  ] as const)('%s has a shape of its own', (word, shape) => {
    const { container } = render(UseVerdict, { verdict: verdictOf(word), rules, vesselId, level: 3 });
    expect(container.querySelector(`button svg ${shape}`)).not.toBeNull();
  });

  test('takes on a colour only where its rule is written beneath', async () => {
    const met = verdictOf('meetsTheRule', { findings: [found('CAN-02', 'ok', 'met', { label: 5 })] });
    const { container } = render(UseVerdict, { verdict: met, rules, vesselId, level: 3 });
    const section = container.querySelector('section');
    expect(section?.classList.contains('open')).toBe(false);
    await fireEvent.click(screen.getByRole('button'));
    expect(section?.classList.contains('open')).toBe(true);
    expect(within(container).getByText(/marked 5\.0/u)).toBeTruthy();
  });

  test('is gone against only where a rule lets it be', async () => {
    const firm = await opened(verdictOf('doNotUse'));
    expect(within(firm).queryByRole('button', { name: /Use anyway/u })).toBeNull();
    firm.remove();
    const soft = await opened(verdictOf('notKnown', { use: 'giveAway', mayBeOverruled: true }));
    await fireEvent.click(within(soft).getByRole('button', { name: 'Use anyway, my reason…' }));
    expect(acts.request).toEqual({ kind: 'overrule', vesselId, use: 'giveAway' });
  });

  test('shows who went against it, when and why, beside the unchanged word', async () => {
    const overruled = { reason: 'for my own table', atMs: Date.UTC(2026, 10, 24, 9) };
    const container = await opened(verdictOf('notKnown', { use: 'giveAway', overruled }));
    const text = container.textContent.replaceAll(/\s+/gu, ' ');
    expect(text).toContain('Not known');
    expect(text).toContain('On 2026-11-24: for my own table');
    expect(text).toContain('The verdict and its caution stay as they are.');
  });

  test('offers what it waits for: a titration, a look, and what can be told', async () => {
    const acid = verdictOf('notKnown', {
      ...{ use: 'dressSalad', measureNext: { quantity: 'acidity', why: 'missing' } },
      findings: [
        found('CAN-05', 'unknown_measure_first', 'missing'),
        found('MLD-01', 'unknown_measure_first', 'missing'),
      ],
    });
    expect(nextActs(acid, vesselId).map(({ label }) => label)).toEqual([
      'Titrate…',
      'Record a reading…',
      'Look at it…',
    ]);
    const container = await opened(acid);
    await fireEvent.click(within(container).getByRole('button', { name: 'Tell what you know…' }));
    expect(acts.request).toEqual({ kind: 'tell', vesselId, use: 'dressSalad' });
  });

  test('where no rule speaks, says so and offers nothing to go against', async () => {
    const container = await opened(verdictOf('notKnown', { use: 'moveAbout', findings: [] }));
    expect(within(container).getByText(/no sourced rule for this/u)).toBeTruthy();
    expect(within(container).getAllByRole('button')).toHaveLength(1);
  });
});

describe('the list of uses', () => {
  test('has the gravest word first, and uses without a rule last', () => {
    const verdicts = [
      verdictOf('notKnown', { use: 'sealInBottle', findings: [] }),
      verdictOf('meetsTheRule', { use: 'keep' }),
      verdictOf('notShownSafeYet', { use: 'drink' }),
      verdictOf('notKnown', { use: 'giveAway' }),
      verdictOf('doNotUse', { use: 'can' }),
    ];
    expect(usesInOrder(verdicts).map(({ use }) => use)).toEqual([
      ...['can', 'giveAway', 'drink', 'keep', 'sealInBottle'],
    ]);
    render(UsesList, { verdicts, rules, vesselId, headingLevel: 2 });
    expect(screen.getByRole('heading', { level: 2 }).textContent).toBe('What it may be used for');
    expect(screen.getAllByRole('listitem')).toHaveLength(5);
    expect(screen.getByRole('region', { name: 'To drink: Not shown safe yet' })).toBeTruthy();
  });
});

describe('what is still wanted', () => {
  test('the named fact first, then those of rules that lack something told', () => {
    const { needed, others } = wantedFacts({
      ...{ use: 'sealInBottle', measureNext: { quantity: 'sealing.bubbling', why: 'missing' } },
      findings: [
        found('PRS-01', 'unknown_measure_first', 'missing', { value: 1, uncertainty: 0.001 }),
        found('PRS-02', 'unknown_measure_first', 'missing'),
        found('MAT-04', 'unknown_measure_first', 'missing'),
      ],
    });
    expect(needed).toEqual(['sealing.bubbling', 'sealing.warmedSinceFirstReading', 'vessel.damage']);
    expect(others).toContain('sealing.bottle');
  });

  test('a whole look, where none was taken', () => {
    const verdict = {
      ...{ use: 'keep', measureNext: { quantity: 'inspection', why: 'missing' } },
      findings: ['MLD-01', 'FLY-01'].map((id) => found(id, 'unknown_measure_first', 'missing')),
    };
    expect(asksToLook(verdict)).toBe(true);
    expect(wantedFacts(verdict).needed).toEqual([
      ...['inspection.growth', 'inspection.flies', 'inspection.cover'],
    ]);
  });

  test('everything the use may ask, where no rule has spoken', () => {
    expect(wantedFacts({ use: 'eat', measureNext: null, findings: [] }).others).toContain(
      'salting.saltGrams',
    );
  });
});
