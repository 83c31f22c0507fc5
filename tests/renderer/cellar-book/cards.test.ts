import { render, screen } from '@testing-library/svelte';
import { describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import { Act } from '#core/ledger/act.ts';
import { EntryId } from '#core/ledger/ids.ts';
import DayEntry from '#renderer/cellar-book/DayEntry.svelte';
import ForesightCard from '#renderer/cellar-book/ForesightCard.svelte';
import ReadingTable from '#renderer/cellar-book/ReadingTable.svelte';
import { idOf, readingOn } from './sample-readings.ts';

const rules = HOUSE_RULES_AT_FIRST;

describe('the table of readings', () => {
  const readings = [
    readingOn(1, { acidityGramsPer100Ml: 3.1, acidityAs: 'acetic', taste: 'sharp' }),
    readingOn(2, { ph: 3.41, phMethod: 'meterToday' }),
  ];

  test('sorts by a press on a heading and says which way', async () => {
    render(ReadingTable, { readings, rules, caption: 'Readings' });
    const date = screen.getByRole('columnheader', { name: /Date/u });
    expect(date.getAttribute('aria-sort')).toBe('descending');
    screen.getByRole('button', { name: /pH/u }).click();
    await Promise.resolve();
    expect(screen.getByRole('columnheader', { name: /pH/u }).getAttribute('aria-sort')).toBe('ascending');
    expect(date.getAttribute('aria-sort')).toBeNull();
    expect(screen.getAllByRole('rowheader')[0]?.textContent).toBe('2026-09-03');
  });

  test('says of an absent measurement that it was not measured', () => {
    render(ReadingTable, { readings, rules, caption: 'Readings', newest: 1 });
    expect(screen.getAllByText('not measured').length).toBe(3);
    expect(screen.queryByRole('button')).toBeNull();
  });
});

describe('a line of the days', () => {
  const JAR = idOf(1);
  const line = (more: Partial<EntryRow>): EntryRow => ({
    ...{
      entryId: EntryId.parse(idOf(7)),
      sequence: 4,
      struck: false,
      reversed: null,
      names: { [JAR]: 'Jar 2' },
    },
    act: Act.parse({ kind: 'drawOff', vesselId: JAR, volumeUl: 250_000, purpose: '' }),
    postings: [
      { account: JAR, deltaUl: -250_000 },
      { account: 'drawn', deltaUl: 250_000 },
    ],
    ...{ happenedAtMs: Date.UTC(2026, 10, 19, 8), writtenAtMs: Date.UTC(2026, 10, 20, 9, 30) },
    typed: { volumeUl: '1/4 L', purpose: ' ' },
    ...more,
  });

  test('shows what was typed beside what was understood, and both times', () => {
    const { container } = render(DayEntry, { entry: line({}), rules, onstrike: () => undefined });
    const text = container.textContent.replaceAll('\u00A0', ' ').replace(/\s+/gu, ' ');
    expect(text).toContain('Drew off 250 ml from Jar 2.');
    expect(text).toContain('volume: 1/4 L');
    expect(text).not.toContain('purpose');
    expect(text).toContain('2026-11-19 08:00');
    expect(text).toContain('2026-11-20 09:30, afterwards');
    expect(text).toContain('Jar 2 −250 ml');
    expect(text).toContain('drawn off +250 ml');
  });

  test('asks to strike just this line', () => {
    const asked: string[] = [];
    render(DayEntry, { entry: line({}), rules, onstrike: (entry: EntryRow) => asked.push(entry.entryId) });
    screen.getByRole('button', { name: /^Strike…/u }).click();
    expect(asked).toEqual([idOf(7)]);
  });

  test('a struck line says so in a word and cannot be struck again', () => {
    const { container } = render(DayEntry, {
      entry: line({ struck: true }),
      rules,
      onstrike: () => undefined,
    });
    expect(container.querySelector('s')).not.toBeNull();
    expect(screen.getByText('struck')).toBeTruthy();
    expect(screen.queryByRole('button')).toBeNull();
  });

  test('a line that takes another back has no button to strike it', () => {
    const act = Act.parse({ kind: 'reverse', entryId: idOf(3), how: 'undo' });
    render(DayEntry, { entry: line({ act, postings: [] }), rules, onstrike: () => undefined });
    expect(screen.queryByRole('button')).toBeNull();
    expect(screen.getAllByText(/Taken back/u).length).toBeGreaterThan(0);
  });
});

describe('the card of what it may become', () => {
  test('names theory and plan apart, and says when a figure is not known', () => {
    const { container } = render(ForesightCard, {
      rules,
      foresight: {
        ...{ originalGravitySg: 1.0533, measuredAtMs: Date.UTC(2026, 8, 14), brix: 13.2 },
        ...{ alcoholTheoryPercent: 7.5, alcoholPlanPercent: 6.9, alcoholPlanUncertainty: 0.73 },
        ...{ alcoholNowPercent: null, alcoholNowUncertainty: null, acidityTheoryGramsPer100Ml: 7.7 },
        ...{ acidityPlanLowGramsPer100Ml: 4.7, acidityPlanHighGramsPer100Ml: 7.1 },
      },
    });
    const text = container.textContent.replaceAll('\u00A0', ' ').replace(/\s+/gu, ' ');
    expect(text).toContain('Alcohol, theory 7.5 % vol');
    expect(text).toContain('Alcohol, plan 6.9 ± 0.8 % vol');
    expect(text).toContain('Alcohol now Not known');
    expect(text).toContain('Acidity, plan 4.7 % to 7.1 % as acetic');
    expect(text).toContain('never clears a check');
  });
});
