import { render, screen } from '@testing-library/svelte';
import { describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import { Act } from '#core/ledger/act.ts';
import { EntryId, type VesselId } from '#core/ledger/ids.ts';
import { corrections } from '#renderer/corrections/corrections-state.svelte.ts';
import DayLine from '#renderer/corrections/DayLine.svelte';
import { idOf } from '../cellar-book/sample-readings.ts';

const rules = HOUSE_RULES_AT_FIRST;

describe('a line of the days', () => {
  const JAR = idOf(1);
  const line = (more: Partial<EntryRow>): EntryRow => ({
    ...{
      entryId: EntryId.parse(idOf(7)),
      sequence: 4,
      struck: false,
      restated: null,
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
    const { container } = render(DayLine, { entry: line({}), rules });
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
    render(DayLine, { entry: line({}), rules });
    screen.getByRole('button', { name: /^Strike…/u }).click();
    expect(corrections.striking?.entryId).toBe(idOf(7));
    corrections.striking = null;
  });

  test('a struck line says so in a word and cannot be struck again', () => {
    const { container } = render(DayLine, { entry: line({ struck: true }), rules });
    expect(container.querySelector('s')).not.toBeNull();
    expect(screen.getByText('struck')).toBeTruthy();
    expect(screen.queryByRole('button')).toBeNull();
  });

  test('a line that takes another back has no button to strike it', () => {
    const act = Act.parse({ kind: 'reverse', entryId: idOf(3), how: 'undo' });
    render(DayLine, { entry: line({ act, postings: [] }), rules });
    expect(screen.queryByRole('button')).toBeNull();
    expect(screen.getAllByText(/Taken back/u).length).toBeGreaterThan(0);
  });

  test('told anew, it keeps its old words struck through beside the new ones, with when and why', () => {
    const restated = {
      act: Act.parse({ kind: 'drawOff', vesselId: JAR, volumeUl: 500_000, purpose: '' }),
      ...{ happenedAtMs: Date.UTC(2026, 10, 18, 8), names: { [JAR]: 'Jar 2' } },
      ...{ correctedAtMs: Date.UTC(2026, 10, 25, 14, 2), reason: 'read the wrong mark' },
    };
    const { container } = render(DayLine, { entry: line({ restated }), rules });
    const struck = [...container.querySelectorAll('s')].map((each) => plain(each.textContent));
    expect(struck).toEqual(['Drew off 250 ml from Jar 2.', '2026-11-19 08:00']);
    const text = plain(container.textContent);
    expect(text).toContain('Now: 2026-11-18 08:00 Drew off 500 ml from Jar 2.');
    expect(text).toContain('Corrected 2026-11-25 14:02: read the wrong mark');
    expect(screen.getByRole('button', { name: /^Correct…\s*Drew off 500/u })).toBeTruthy();
  });

  test('told anew of another vessel, it says in either diary where it went', () => {
    const CROCK = idOf(2);
    const restated = {
      act: Act.parse({ kind: 'drawOff', vesselId: CROCK, volumeUl: 250_000, purpose: '' }),
      ...{ happenedAtMs: Date.UTC(2026, 10, 19, 8), names: { [CROCK]: 'Crock' } },
      ...{ correctedAtMs: Date.UTC(2026, 10, 25, 14, 2), reason: '' },
    };
    const tagIn = (vesselId?: string): string => {
      const { container, unmount } = render(DayLine, {
        ...{ entry: line({ restated }), rules },
        ...(vesselId === undefined ? {} : { vesselId: vesselId as VesselId }),
      });
      const said = container.querySelector('.tag')?.textContent ?? '';
      expect(plain(container.querySelector('s')?.textContent ?? '')).toBe('Drew off 250 ml from Jar 2.');
      unmount();
      return said;
    };
    expect(tagIn(JAR)).toBe('moved to Crock');
    expect(tagIn(CROCK)).toBe('moved here from Jar 2');
    expect(tagIn()).toBe('moved from Jar 2 to Crock');
  });

  test('taken back with a correction of another, it says so', () => {
    const takenBack = { atMs: Date.UTC(2026, 10, 25, 14, 2), reason: 'the other jar' };
    const { container } = render(DayLine, { entry: line({ struck: true, takenBack }), rules });
    expect(plain(container.textContent)).toContain(
      'Taken back with a correction, 2026-11-25 14:02: the other jar',
    );
    expect(screen.queryByRole('button')).toBeNull();
  });

  test('a correction says what it put right, is not corrected itself, and can be taken back', () => {
    const act = Act.parse({
      kind: 'restate',
      reason: 'the wrong mark',
      corrections: [
        {
          ...{ entryId: idOf(3), happenedAtMs: 0 },
          act: { kind: 'drawOff', vesselId: JAR, volumeUl: 500_000, purpose: '' },
        },
        { entryId: idOf(4), happenedAtMs: 0, act: null },
      ],
    });
    const { container } = render(DayLine, { entry: line({ act, postings: [] }), rules });
    const text = plain(container.textContent);
    expect(text).toContain('1 earlier line corrected, 1 taken back: the wrong mark.');
    expect(text).toContain('Now: Drew off 500 ml from Jar 2.');
    expect(text).toContain('One line taken back.');
    expect(screen.queryByRole('button', { name: /^Correct…/u })).toBeNull();
    expect(screen.getByRole('button', { name: /^Take it back…/u })).toBeTruthy();
  });
});

function plain(text: string): string {
  return text.replaceAll('\u00A0', ' ').replace(/\s+/gu, ' ').trim();
}
