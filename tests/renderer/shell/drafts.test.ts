import { draftFor } from '#renderer/shell/drafts.ts';
import { beforeEach, describe, expect, it } from 'vitest';

type Fields = { gravity: string; taste: string };

describe('a draft', () => {
  beforeEach(() => {
    localStorage.clear();
  });

  it('comes back as it was left, each form its own', () => {
    draftFor<Fields>('reading:1').keep({ gravity: '1.0', taste: '' });
    expect(draftFor<Fields>('reading:1').read()).toEqual({ gravity: '1.0', taste: '' });
    expect(draftFor<Fields>('reading:2').read()).toBeNull();
  });

  it('is gone once forgotten, and when nothing is left in it', () => {
    const draft = draftFor<Fields>('reading:1');
    draft.keep({ gravity: '1.0', taste: '' });
    draft.forget();
    expect(draft.read()).toBeNull();
    draft.keep({ gravity: '1.0', taste: '' });
    draft.keep({ gravity: ' ', taste: '' });
    expect(draft.read()).toBeNull();
  });

  it.each(['', '{', '7', '"text"', 'null', '{"gravity":{}}', '[]'])(
    'is none when what was kept is broken: %s',
    (kept) => {
      localStorage.setItem('undercroft.draft.reading:1', kept);
      expect(draftFor<Fields>('reading:1').read()).toBeNull();
    },
  );

  it('fails nowhere without storage or with a full one', () => {
    const none = draftFor<Fields>('x', null);
    none.keep({ gravity: '1', taste: '' });
    none.forget();
    expect(none.read()).toBeNull();
    const full = {
      getItem: () => null,
      removeItem: () => undefined,
      setItem: () => {
        throw new DOMException('full', 'QuotaExceededError');
      },
    } as unknown as Storage;
    expect(() => {
      draftFor<Fields>('x', full).keep({ gravity: '1', taste: '' });
    }).not.toThrow();
  });
});
