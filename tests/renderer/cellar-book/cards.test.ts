import { render, screen } from '@testing-library/svelte';
import { describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import ForesightCard from '#renderer/cellar-book/ForesightCard.svelte';
import ReadingTable from '#renderer/cellar-book/ReadingTable.svelte';
import { readingOn } from './sample-readings.ts';

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
