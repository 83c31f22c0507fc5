import { createRouterClient } from '@orpc/server';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { Verdict } from '#core/contract/verdict.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import { compose } from '#main/compose.ts';
import { sayVerdict } from '#renderer/words/verdict-words.ts';
import { labelCautions } from '#core/labels/label-cautions.ts';

// Telling a year takes its time on a machine with other work.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const TODAY = { startMs: Date.UTC(2026, 10, 25), endMs: Date.UTC(2026, 10, 26) };
const folder = mkdtempSync(join(tmpdir(), 'undercroft-verdicts-test-'));
const undercroft = compose({ demo: true, dataFolder: folder });
const client = createRouterClient(undercroft.router);

interface Standing {
  readonly batchName: string;
  readonly verdicts: readonly Verdict[];
}
let standing: Standing[];

beforeAll(async () => {
  const { groups } = await client.shelves.overview({ grouping: 'place', today: TODAY });
  const pages = await Promise.all(
    groups.map(({ key }) =>
      client.shelves.page({ grouping: 'place', key, today: TODAY, offset: 0, limit: 200 }),
    ),
  );
  const rows = pages.flatMap((page) => page.rows);
  standing = await Promise.all(
    rows.map(async ({ vesselId, batchName }) => ({
      batchName: batchName ?? 'nothing',
      verdicts: (await client.shelves.vessel({ vesselId })).verdicts,
    })),
  );
});

afterAll(() => {
  undercroft.close();
  rmSync(folder, { recursive: true, force: true });
});

const BROKEN = /undefined|NaN|null|Infinity|\[object|no words for|not listed|does not know/u;

describe('the sample cellar in the words of the whole book', () => {
  test('every verdict on every vessel is four whole lines', () => {
    const verdicts = standing.flatMap((vessel) => vessel.verdicts);
    expect(verdicts.length).toBeGreaterThan(100);
    for (const verdict of verdicts) {
      const { word, use, why, measureNext, sources } = sayVerdict(verdict, {
        dates: 'long',
        temperature: 'F',
      });
      for (const line of [word, use, measureNext, ...why, ...labelCautions(verdict)]) {
        expect(line).not.toMatch(BROKEN);
        expect(line.length).toBeGreaterThan(5);
      }
      for (const line of [...why, measureNext]) expect(line).toMatch(/[.?]$/u);
      expect(why.length).toBeGreaterThan(0);
      expect(new Set(why).size).toBe(why.length);
      if (verdict.findings.length > 0) expect(sources.length).toBeGreaterThan(0);
    }
  });

  test('a vinegar of which nobody said what it was made from, or that nobody looked at, says so', () => {
    const of = (use: string) =>
      standing.flatMap(({ verdicts }) => verdicts.filter((verdict) => verdict.use === use));
    const says = (verdict: Verdict, words: string) =>
      sayVerdict(verdict).why.some((line) => line.startsWith(words));
    const labelled = of('labelAsVinegar');
    const untold = labelled.filter((verdict) => says(verdict, 'What it was made from is not on record'));
    expect(labelled.length).toBeGreaterThan(9);
    // The household told of two of them alone: one was scraps, and one is the vinegar for the salad.
    expect(untold).toHaveLength(labelled.length - 2);
    for (const { word } of untold) expect(word).toBe('notKnown');
    const scraps = labelled.filter((verdict) => !untold.includes(verdict));
    expect(scraps.some((verdict) => says(verdict, 'It began as scraps or peel in sugared water'))).toBe(true);

    const dressing = of('dressSalad');
    const unseen = dressing.filter((verdict) => says(verdict, 'Nobody has looked at it and smelled it yet'));
    expect(unseen).toHaveLength(dressing.length - 2);
    for (const { word } of unseen) expect(word).toBe('notKnown');
  });

  test('a vinegar titrated in full, looked at and told of may dress a salad, with its cautions beside it', () => {
    const dressing = standing.find(({ batchName, verdicts }) => {
      return batchName === 'Apple vinegar 1' && verdicts.some(({ use }) => use === 'dressSalad');
    });
    const verdict = dressing?.verdicts.find(({ use }) => use === 'dressSalad');
    if (verdict === undefined) throw new Error('the vinegar for the salad is not asked about salads');
    expect(sayVerdict(verdict).word).toBe('Meets the rule');
    expect(new Set(verdict.findings.map((finding) => finding.verdict))).toEqual(new Set(['ok', 'caution']));
    expect(labelCautions(verdict).length).toBeGreaterThan(0);
    // By its own titration, not by the exception that was once made for its label.
    expect(verdict.overruled).toBeNull();
  });

  test('each kind of ferment is asked about all of its uses', () => {
    const uses = new Set(standing.flatMap(({ verdicts }) => verdicts.map(({ use }) => use)));
    for (const { uses: ofKind } of Object.values(FERMENTS)) {
      for (const use of ofKind) expect(uses.has(use), use).toBe(true);
    }
  });
});
