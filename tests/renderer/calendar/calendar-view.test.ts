import '../jsdom-parts.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import CalendarView from '#renderer/calendar/CalendarView.svelte';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar, entryOf, NOW_MS, shelfRow, uuid } from '../fake-cellar.ts';
import type { CultureId, VesselId } from '#core/ledger/ids.ts';

const answers = vi.hoisted(() => ({
  ...{ overview: vi.fn(), page: vi.fn(), vessel: vi.fn(), list: vi.fn(), happened: vi.fn() },
}));
vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    shelves: { overview: answers.overview, page: answers.page, vessel: answers.vessel },
    cultures: { list: answers.list },
    ledger: { happened: answers.happened },
  },
}));

const DAY_MS = 86_400_000;
const due = {
  ...({ act: 'gravity', why: 'practice', earliestMs: NOW_MS - 9 * DAY_MS } as const),
  ...{ idealMs: NOW_MS - 8 * DAY_MS, latestMs: NOW_MS - 3 * DAY_MS },
};
const day = (iso: string): Promise<HTMLElement> =>
  waitFor(() => {
    const found = document.getElementById(`day-${iso}`);
    if (found === null) throw new Error(`no ${iso}`);
    return found;
  });

beforeEach(() => {
  vi.clearAllMocks();
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
  window.localStorage.clear();
  acts.close();
  // The page's clock runs with the host's, so today is the day of the made-up cellar.
  cellar.take(aboutCellar());
  cellar.checkDay();
  nav.current = { place: 'calendar' };
  answers.overview.mockResolvedValue({ groups: [{ key: 'late', vesselCount: 1 }] });
  answers.page.mockResolvedValue({ rows: [shelfRow({ due })] });
  answers.vessel.mockResolvedValue({ due: [due] });
  answers.list.mockResolvedValue([]);
  answers.happened.mockImplementation(({ boundsMs }: { boundsMs: number[] }) =>
    Promise.resolve({
      counts: boundsMs.slice(1).map((_, i) => (i === 0 ? 2 : 0)),
      entries: [entryOf({ kind: 'feedCulture', cultureId: uuid(5) as CultureId, text: 'cider' })],
      more: false,
    }),
  );
});

describe('the calendar', () => {
  it('carries what is late over to today, with the form that does it', async () => {
    render(CalendarView);
    const today = await day('2026-11-25');
    await waitFor(() => expect(today.textContent).toMatch(/Late:\s+Kingston cider\s+Measure gravity/u));
    expect(today.getAttribute('aria-current')).toBe('date');
    await fireEvent.click(await screen.findByRole('button', { name: /^Record…\s*Kingston cider/u }));
    expect(acts.request).toEqual({ kind: 'reading', vesselId: uuid(1) as VesselId });
  });

  it('counts what was done, and tells the chosen day in full', async () => {
    render(CalendarView);
    const first = await day('2026-11-01');
    await waitFor(() => expect(screen.getAllByText('2 done')).toHaveLength(1));
    await fireEvent.click(first);
    expect(nav.current).toEqual({ place: 'calendar', day: '2026-11-01' });
    await waitFor(() => expect(first.getAttribute('aria-selected')).toBe('true'));
    await fireEvent.click(screen.getByRole('button', { name: 'Month before' }));
    expect(nav.current).toEqual({ place: 'calendar', day: '2026-10-01' });
    await day('2026-10-15');
  });

  it('is walked by the arrows, and Enter goes on to the day', async () => {
    render(CalendarView);
    const today = await day('2026-11-25');
    today.focus();
    await fireEvent.keyDown(today, { key: 'ArrowDown' });
    expect(nav.current).toEqual({ place: 'calendar', day: '2026-12-02' });
    await waitFor(() => expect(document.activeElement?.id).toBe('day-2026-12-02'));
    await fireEvent.keyDown(await day('2026-12-02'), { key: 'Enter' });
    expect(document.activeElement?.id).toBe('calendar-day');
  });
});
