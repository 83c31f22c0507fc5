import { describe, expect, it } from 'vitest';
import { DUE_ACTS, type DueCheck } from '#core/contract/shelves.ts';
import {
  dueGroupOf,
  dueToneOf,
  sayDue,
  sayDueAct,
  sayDueReason,
  sayDueTag,
} from '#renderer/words/due-words.ts';

const day = 86_400_000;
const startMs = Date.UTC(2026, 10, 25);
const today = { startMs, endMs: startMs + day };
const due = (ideal: number, latest: number, act: DueCheck['act'] = 'rack'): DueCheck => ({
  act,
  earliestMs: startMs + (ideal - 3) * day,
  idealMs: startMs + ideal * day,
  latestMs: startMs + latest * day,
  why: 'practice',
});

describe('due tags', () => {
  it('is late only once the last day is over', () => {
    expect(dueGroupOf(due(-5, -0.01), today)).toBe('late');
    expect(dueGroupOf(due(-5, 0), today)).toBe('today');
    expect(sayDueTag(due(-5, -2.5), today)).toBe('! 3 d late');
    expect(sayDue(due(-5, -2.5), today)).toBe('3 days late: rack off the lees');
    expect(sayDue(due(-5, -0.5), today)).toBe('1 day late: rack off the lees');
  });

  it('is for today from the best day on', () => {
    expect(sayDueTag(due(0.9, 4), today)).toBe('today');
    expect(sayDue(due(0.9, 4, 'acidity'), today)).toBe('today: measure acidity');
    expect(dueToneOf(due(0.9, 4), today)).toBe('today');
  });

  it('says in how many days within the week, and hangs no tag after it', () => {
    expect(sayDueTag(due(3.2, 9), today)).toBe('rack in 3 d');
    expect(sayDue(due(3.2, 9), today)).toBe('in 3 days: rack off the lees');
    expect(dueToneOf(due(7, 9), today)).toBe('soon');
    expect(dueToneOf(due(8, 9), today)).toBeNull();
    expect(dueToneOf(null, today)).toBeNull();
  });

  it('has words for every act and says so when a reason has none', () => {
    for (const act of DUE_ACTS) expect(sayDueAct(act)).toMatch(/^[A-Z]/);
    expect(sayDueReason('gravityStands')).toMatch(/two days apart/);
    expect(sayDueReason('something else')).toMatch(/No reason/);
  });
});
