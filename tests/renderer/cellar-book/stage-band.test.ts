import { describe, expect, test } from 'vitest';
import { StageSpan } from '#core/contract/book.ts';
import { stageBand } from '#renderer/cellar-book/stage-band.ts';
import { DAY, idOf } from './sample-readings.ts';

const [OLD, NEW] = [idOf(1), idOf(2)];
const [JUG, JAR, CROCK] = [idOf(11), idOf(12), idOf(13)];
const START = Date.UTC(2026, 8, 14, 9);
let serial = 100;
const span = (batchId: string, vesselId: string, stage: string, day: number): StageSpan =>
  StageSpan.parse({ entryId: idOf((serial += 1)), batchId, vesselId, stage, fromMs: START + day * DAY });

describe('the life of a batch as a band', () => {
  test('the parent’s stages come first and are told apart as inherited', () => {
    const band = stageBand({
      spans: [
        ...[span(OLD, JUG, 'waiting', 0), span(OLD, JUG, 'yeast', 2), span(OLD, JUG, 'settling', 26)],
        span(NEW, JAR, 'vinegar', 38),
      ],
      batchId: NEW,
      startedAtMs: START + 38 * DAY,
      standingIn: [JAR],
      untilMs: START + 72 * DAY,
    });
    expect(band?.lines).toHaveLength(1);
    expect(
      band?.lines[0]?.parts.map(({ stage, days, inherited, goesOn }) => [stage, days, inherited, goesOn]),
    ).toEqual([
      ['waiting', 2, true, false],
      ['yeast', 24, true, false],
      ['settling', 12, true, false],
      ['vinegar', 34, false, true],
    ]);
    expect(band?.toMs).toBe(START + 72 * DAY);
  });

  test('racking within a stage does not break it', () => {
    const band = stageBand({
      spans: [span(NEW, JUG, 'yeast', 0), span(NEW, JAR, 'yeast', 5), span(NEW, JAR, 'settling', 9)],
      ...{ batchId: NEW, startedAtMs: START, standingIn: [JAR], untilMs: START + 12 * DAY },
    });
    expect(band?.lines[0]?.parts.map(({ stage, days }) => [stage, days])).toEqual([
      ['yeast', 9],
      ['settling', 3],
    ]);
  });

  test('a batch in two vessels has a line for each: the common part, then its own', () => {
    const band = stageBand({
      spans: [
        ...[span(NEW, JUG, 'yeast', 0), span(NEW, JUG, 'settling', 10), span(NEW, JAR, 'settling', 12)],
        span(NEW, JAR, 'vinegar', 14),
      ],
      ...{ batchId: NEW, startedAtMs: START, standingIn: [JUG, JAR], untilMs: START + 20 * DAY },
    });
    const stages = band?.lines.map(({ vesselId, parts }) => [vesselId, parts.map(({ stage }) => stage)]);
    expect(stages).toEqual([
      [JUG, ['yeast', 'settling']],
      [JAR, ['yeast', 'settling', 'vinegar']],
    ]);
  });

  test('a second part does not take over what a sister part went through', () => {
    const band = stageBand({
      spans: [span(NEW, JUG, 'yeast', 0), span(NEW, JAR, 'vinegar', 5), span(NEW, CROCK, 'maturing', 9)],
      ...{ batchId: NEW, startedAtMs: START, standingIn: [JUG, JAR, CROCK], untilMs: START + 20 * DAY },
    });
    expect(band?.lines[2]?.parts.map(({ stage }) => stage)).toEqual(['yeast', 'maturing']);
  });

  test('a batch that stands nowhere ends with its last act and goes on no longer', () => {
    const band = stageBand({
      spans: [span(NEW, JUG, 'yeast', 0)],
      ...{ batchId: NEW, startedAtMs: START, standingIn: [], untilMs: START + 8 * DAY },
    });
    expect(band?.lines[0]?.parts[0]).toMatchObject({ goesOn: false, days: 8 });
  });

  test('a batch begun this minute still has a width; one without stages has no band', () => {
    const begun = stageBand({
      spans: [span(NEW, JUG, 'waiting', 0)],
      ...{ batchId: NEW, startedAtMs: START, standingIn: [JUG], untilMs: START },
    });
    expect((begun?.toMs ?? 0) - (begun?.fromMs ?? 0)).toBeGreaterThan(0);
    expect(
      stageBand({ spans: [], batchId: NEW, startedAtMs: START, standingIn: [], untilMs: START }),
    ).toBeNull();
  });
});
