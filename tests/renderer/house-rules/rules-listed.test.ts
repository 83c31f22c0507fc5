import '../jsdom-parts.ts';
import { fireEvent, render, screen, within } from '@testing-library/svelte';
import { tick } from 'svelte';
import { expect, test } from 'vitest';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import RulesAndSources from '#renderer/house-rules/RulesAndSources.svelte';
import { allRules, rulesMatching } from '#renderer/house-rules/rules-listed.ts';

test('every rule is listed once, with words, a use and a source', () => {
  const rules = allRules();
  expect(rules.map(({ id }) => id)).toEqual(
    [...WHOLE_BOOK.rules, ...WHOLE_BOOK.measurementRules].map(({ id }) => id),
  );
  for (const { id, about, uses, sources } of rules) {
    expect(about, id).not.toBe(id);
    expect(uses.length, id).toBeGreaterThan(0);
    expect(sources.length, id).toBeGreaterThan(0);
    expect(
      sources.every((source) => source.length > 4),
      id,
    ).toBe(true);
  }
});

test('what is only remembered says so', () => {
  const told = allRules().flatMap(({ sources }) => sources);
  expect(told.some((source) => source.endsWith('(from memory, still to be confirmed)'))).toBe(true);
});

test('every word of a search has to stand there, in whatever order and case', () => {
  const rules = allRules();
  expect(rulesMatching(rules, 'veg-03').map(({ id }) => id)).toContain('VEG-03');
  expect(rulesMatching(rules, 'SALT veg-03').map(({ id }) => id)).toEqual(['VEG-03']);
  expect(rulesMatching(rules, '  ')).toHaveLength(rules.length);
  expect(rulesMatching(rules, 'no such word anywhere')).toEqual([]);
});

test('the list opens, and is searched by typing', async () => {
  render(RulesAndSources);
  const details = screen.getByText('All rules').closest('details');
  if (details === null) throw new Error('no details');
  details.open = true;
  await fireEvent(details, new Event('toggle'));
  await tick();
  await fireEvent.input(await within(details).findByLabelText('Find a rule'), {
    target: { value: 'VEG-03' },
  });
  await tick();
  expect(within(details).getByRole('status').textContent).toMatch(/^\s*\d+ of \d+ rules\s*$/);
  expect(within(details).getByText('VEG-03')).toBeTruthy();
});
