import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { codeText, isAlphanumeric, labelId, readLabelId, type LabelTarget } from '#core/labels/label-code.ts';

describe('the id on a label', () => {
  it('is what a person can type', () => {
    expect(labelId({ kind: 'vessel', number: 7 })).toBe('V-7');
    expect(labelId({ kind: 'batch', code: 'AV-26-003' })).toBe('AV-26-003');
    expect(labelId({ kind: 'lot', code: 'AV-26-003', sequence: 57 })).toBe('AV-26-003/57');
  });

  it('is read back with and without what a scanner puts before it, in any case', () => {
    for (const line of ['UC:V-7', 'uc: v-7', ' V-7 ', 'v-7']) {
      expect(readLabelId(line)).toEqual({ kind: 'vessel', number: 7 });
    }
    expect(readLabelId('uc:av-26-003')).toEqual({ kind: 'batch', code: 'AV-26-003' });
    expect(readLabelId('UC:AV-26-003/57')).toEqual({ kind: 'lot', code: 'AV-26-003', sequence: 57 });
    expect(readLabelId('UC:')).toBeNull();
    expect(readLabelId('  ')).toBeNull();
  });

  it('holds nothing but itself, in characters that the code packs two by two', () => {
    const target = fc.oneof(
      fc.record({ kind: fc.constant('vessel' as const), number: fc.integer({ min: 1, max: 999_999_999 }) }),
      fc.record({
        kind: fc.constant('lot' as const),
        code: fc.stringMatching(/^[A-Z]{2}-\d{2}-\d{3,5}$/u),
        sequence: fc.integer({ min: 1, max: 1e9 }),
      }),
      fc.record({
        kind: fc.constant('batch' as const),
        code: fc.stringMatching(/^[A-Z]{2}-\d{2}-\d{3,5}$/u),
      }),
    );
    fc.assert(
      fc.property(target, (one: LabelTarget) => {
        const text = codeText(labelId(one));
        expect(text).toBe(`UC:${labelId(one)}`);
        expect(isAlphanumeric(text)).toBe(true);
        expect(readLabelId(text)).toEqual(one);
      }),
    );
  });
});
