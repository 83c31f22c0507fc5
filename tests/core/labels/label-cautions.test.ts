import { describe, expect, test } from 'vitest';
import { evaluate } from '#core/safety/evaluate.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { ALL_SAY_KEYS, RULES } from '#core/safety/rule-book.ts';
import type { Use } from '#core/safety/rule.ts';
import { briefly, labelCautions, PRINTED_RULES, type PrintedFinding } from '#core/labels/label-cautions.ts';
import { CLEAN, DAY, facts, fermentingSince, HOUR, NOW, other, ph, titrated } from '../safety/given.ts';

const plain = (text: string): string => text.replaceAll('\u00A0', ' ');
const cautions = (use: Use, change: Partial<SafetyFacts>): readonly string[] => {
  const { findings } = evaluate(use, facts(change));
  return labelCautions({
    findings: findings.map((f) => ({ ...f, numbers: { ...f.numbers }, sourceIds: [...f.sourceIds] })),
  }).map(plain);
};
const finding = (sayKey: string, verdict: PrintedFinding['verdict']): PrintedFinding => {
  const [ruleId = '', reason = ''] = sayKey.split('.');
  return { ruleId, reason, verdict, numbers: {} };
};

describe('cautions that print on a label', () => {
  const printing = RULES.filter(({ printsOnLabel }) => printsOnLabel).map(({ id }) => id);

  test.each(printing)('[%s] prints whenever it does not say ok, a fault included', (id) => {
    expect(PRINTED_RULES).toContain(id);
    const keys = ALL_SAY_KEYS.filter((key) => key.startsWith(`${id}.`) && key !== `${id}.met`);
    for (const key of keys) {
      const printed = labelCautions({ findings: [finding(key, 'caution')] });
      expect(printed.length, key).toBeGreaterThan(0);
      for (const text of printed) expect(text).toMatch(/^\p{L}.*\.$/u);
      for (const text of printed) expect(text).not.toMatch(/undefined|NaN|\bsafe\b/u);
    }
    expect(labelCautions({ findings: [finding(`${id}.met`, 'ok')] })).toEqual([]);
  });

  test('in fewer words each still is a sentence, no longer, and names whom and what it is about', () => {
    const keys = ALL_SAY_KEYS.filter(
      (key) => !key.endsWith('.met') && printing.some((id) => key.startsWith(`${id}.`)),
    );
    const texts = new Set(keys.flatMap((key) => labelCautions({ findings: [finding(key, 'caution')] })));
    const raw = labelCautions({
      findings: [finding('KOM-01.missing', 'caution'), finding('KOM-05.condition', 'caution')],
    });
    const matters =
      /\bchildren|infants|pregnan|old people|old age|immunity|pickl|canning|refrigerat|4 weeks|cold|pressure|5\s%|1 year|4\.6|14 days|[Hh]oney|alcohol|sulfites/giu;
    for (const text of [...texts, ...raw]) {
      const short = briefly(text);
      expect(short.length).toBeLessThanOrEqual(text.length);
      expect(short).toMatch(/^\p{L}.*\.$/u);
      for (const [word] of text.matchAll(matters))
        expect(short.toLowerCase(), text).toContain(word.toLowerCase());
    }
  });

  test('nothing prints for other rules, or where nothing was asked', () => {
    expect(labelCautions({ findings: [] })).toEqual([]);
    expect(labelCautions({ findings: [finding('MAT-05.condition', 'caution')] })).toEqual([]);
  });

  test('[CAN-05] home-made vinegar says what it is not for, by what it was shown to be', () => {
    const vinegar = { product: 'vinegar', inspection: CLEAN } as const;
    expect(cautions('dressSalad', vinegar)).toEqual([
      'Do not use for pickling or canning. Not shown to be 5 % or more. Test before use.',
    ]);
    expect(cautions('dressSalad', { ...vinegar, measurements: [titrated(5.5)] })).toEqual([
      'Home-made: for dressings only. Not for pickling or canning.',
    ]);
    expect(cautions('refrigeratePickle', { ...vinegar, measurements: [titrated(5.5)] })).toEqual([
      'Home-made: for pickles in the refrigerator only, eaten within 4 weeks. Not for canning.',
    ]);
    expect(cautions('can', vinegar)).toEqual(['Do not use for canning or shelf pickles.']);
  });

  test('[HON-01][WIN-01] a mead of which nothing was told names honey and sulfites', () => {
    expect(cautions('giveAway', { product: 'mead' })).toEqual([
      'Contains sulfites.',
      'Contains honey: not for children under 1 year.',
    ]);
    expect(cautions('drink', { product: 'mead', recipient: 'infant' })).toContain(
      'Contains honey: not for children under 1 year.',
    );
  });

  test('[KOM-04][KOM-05] kombucha names its alcohol, that it is raw, and a pH that was not measured', () => {
    const brew = { product: 'kombucha', inspection: CLEAN } as const;
    expect(cautions('giveAway', brew)).toEqual([
      'No fresh pH reading.',
      'May contain alcohol.',
      'Not pasteurised: keep cold, may build pressure. Keep from small children, and leave it alone when pregnant or with weak immunity.',
    ]);
    const measured = [other('alcohol', 0.9, { method: 'alcoholLaboratory' }), ph(3.2)];
    expect(cautions('giveAway', { ...brew, measurements: measured })).toContain('Contains alcohol.');
    expect(cautions('giveAway', { ...brew, measurements: measured })).not.toContain('No fresh pH reading.');
  });

  test('[CID-03][VEG-09] raw juice and young vegetables warn those at risk', () => {
    expect(cautions('giveAway', { product: 'juice' })[0]).toMatch(
      /^Juice not heated: .* gravely ill from it\.$/u,
    );
    const young = { product: 'brinedVegetables', ferment: fermentingSince(NOW - 3 * DAY) } as const;
    expect(cautions('eat', { ...young, measurements: [ph(3.6)] })).toContain(
      'Young: under 14 days old, or its age is not known. Not for infants, in pregnancy, in old age or with weak immunity.',
    );
  });

  test('[MLD-01] a mouldy jar is kept apart, and says so first, whether or not it is gone against', () => {
    const mouldy = { ...CLEAN, growth: 'fuzzyOrColoured', atMs: NOW - HOUR } as const;
    expect(cautions('dressSalad', { product: 'vinegar', inspection: mouldy })[0]).toBe(
      'Kept apart: do not use.',
    );
  });
});
