import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Act } from '#core/ledger/act.ts';
import { blendAge } from '#core/ledger/blend-age.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { batch, DAY, idOf, LITRE, START, testCellar, vessel, type TestCellar } from './cellar-of.ts';

/**
 * Drawing a share and refilling it, against the closed forms of a moving average (models D3): the share of the first
 * filling after n rounds is (1 − f)^n, the mean age after a refill T(1 − f)(1 − (1 − f)^n)/f, and for K stages in a
 * line K·T/f of what is drawn. The values were worked out apart from this program and checked there by simulation.
 */
const { fractionalReplacement, solera } = (
  JSON.parse(readFileSync(new URL('../../published/ledger-vectors.json', import.meta.url), 'utf8')) as {
    ledger: {
      fractionalReplacement: readonly {
        readonly f: number;
        readonly T: number;
        readonly n: number;
        readonly meanAgeAfterRefillSteady: number;
        readonly meanAgeBeforeDrawSteady: number;
        readonly meanAgeAfterNRefillsFromFresh: number;
        readonly shareOfFirstFill: number;
      }[];
      solera: readonly {
        readonly stages: number;
        readonly f: number;
        readonly T: number;
        readonly meanAgeLastStageAfterRefill: number;
        readonly meanAgeDrawn: number;
      }[];
    };
  }
).ledger;

const CASK = 90;
const v = (n: number): VesselId => idOf<VesselId>('vessel', n);

function ageOf(t: TestCellar, vesselId: VesselId, atMs: number): number {
  const origins = Object.entries(t.cellar.get('fill', vesselId)?.origins ?? {}).map(([id, tokens]) => ({
    tokens,
    bornAtMs: t.cellar.get('batch', id)?.startedAtMs ?? 0,
  }));
  return blendAge(origins, atMs)?.mean ?? Number.NaN;
}

const post = (t: TestCellar, act: Act, day: number): void => {
  const posted = t.post(act, START + day * DAY);
  if (!posted.ok) throw new Error(`${act.kind}: ${posted.error.type}`);
};

/** Fresh must, of which the cask is refilled after drawing; what is left of it is thrown out. */
function round(t: TestCellar, given: { readonly f: number; readonly day: number; readonly n: number }): void {
  const drawnUl = Math.round(given.f * CASK * LITRE);
  post(t, batch(given.n, 2, CASK), given.day);
  const refill = {
    ...{ vesselId: v(1), drawnUl, toVesselId: null, newBatch: null, toStage: null },
    ...{ fromVesselId: v(2), refillUl: drawnUl },
  };
  post(t, { kind: 'drawAndRefill', ...refill }, given.day);
  const leftUl = t.cellar.get('fill', v(2))?.volumeUl ?? 0;
  post(t, { kind: 'discard', vesselId: v(2), volumeUl: leftUl, reason: '' }, given.day);
}

describe('a perpetual barrel', () => {
  it.each(fractionalReplacement)('[model-vectors] f = $f every $T days, $n refills', (row) => {
    const t = testCellar();
    post(t, vessel(1, CASK), 0);
    post(t, vessel(2, CASK), 0);
    post(t, batch(1, 1, CASK), 0);
    for (let n = 1; n <= row.n; n += 1) round(t, { f: row.f, day: n * row.T, n: n + 1 });
    const fill = t.cellar.get('fill', v(1));
    const share = (fill?.origins[idOf('batch', 1)] ?? 0) / (CASK * LITRE);
    // Each parting rounds to a token, so n rounds are within n tokens.
    expect(Math.abs(share - row.shareOfFirstFill) * CASK * LITRE).toBeLessThanOrEqual(row.n + 1);
    expect(ageOf(t, v(1), START + row.n * row.T * DAY)).toBeCloseTo(row.meanAgeAfterNRefillsFromFresh, 4);
  });

  it.each(fractionalReplacement)('[model-vectors] f = $f every $T days comes to its steady age', (row) => {
    const t = testCellar();
    post(t, vessel(1, CASK), 0);
    post(t, vessel(2, CASK), 0);
    post(t, batch(1, 1, CASK), 0);
    const rounds = Math.ceil(Math.log(1e-7) / Math.log(1 - row.f));
    for (let n = 1; n <= rounds; n += 1) round(t, { f: row.f, day: n * row.T, n: n + 1 });
    const last = START + rounds * row.T * DAY;
    expect(ageOf(t, v(1), last)).toBeCloseTo(row.meanAgeAfterRefillSteady, 2);
    expect(ageOf(t, v(1), last + row.T * DAY)).toBeCloseTo(row.meanAgeBeforeDrawSteady, 2);
  });

  it.each(solera)('[model-vectors] $stages stages in a line, f = $f every $T days', (row) => {
    const t = testCellar();
    const casks = row.stages;
    for (let n = 1; n <= casks + 1; n += 1) post(t, vessel(n, CASK), 0);
    for (let n = 1; n <= casks; n += 1) post(t, batch(n, n, CASK), 0);
    const movedUl = Math.round(row.f * CASK * LITRE);
    const rounds = 55;
    let age = 0;
    for (let n = 1; n <= rounds; n += 1) {
      const day = n * row.T;
      const at = START + day * DAY;
      post(t, batch(casks + n, casks + 1, CASK), day);
      // From the oldest on: drawn, then refilled from the younger one beside it.
      age = ageOf(t, v(casks), at);
      post(t, { kind: 'drawOff', vesselId: v(casks), volumeUl: movedUl, purpose: '' }, day);
      for (let cask = casks; cask >= 1; cask -= 1) {
        const from = cask === 1 ? casks + 1 : cask - 1;
        const refill = { fromVesselId: v(from), toVesselId: v(cask), volumeUl: movedUl };
        post(t, { kind: 'transfer', ...refill, leesUl: 0, newBatch: null, toStage: null }, day);
      }
      const leftUl = t.cellar.get('fill', v(casks + 1))?.volumeUl ?? 0;
      post(t, { kind: 'discard', vesselId: v(casks + 1), volumeUl: leftUl, reason: '' }, day);
    }
    expect(age).toBeCloseTo(row.meanAgeDrawn, 1);
    expect(ageOf(t, v(casks), START + rounds * row.T * DAY)).toBeCloseTo(row.meanAgeLastStageAfterRefill, 1);
  });
});
