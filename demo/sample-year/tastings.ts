import type { ActOf } from '#core/ledger/act.ts';
import type { TasteWord } from '#core/ledger/taste-words.ts';

import type { Doing, Visit } from './telling.ts';

interface Sip {
  readonly score: ActOf<'tasteNote'>['score'];
  readonly words: readonly TasteWord[];
  readonly text?: string;
  readonly by?: string;
}

/** A glass tasted with the wheel beside it. */
function sip(handle: string, { score, words, text = '', by = '' }: Sip): Doing {
  return ({ write, vessels }) => {
    const about = { kind: 'vessel', vesselId: vessels.of(handle) } as const;
    write({ kind: 'tasteNote', about, words: [...words], score, text, by });
  };
}

export const tastings: readonly Visit[] = [
  ['2026-01-25 11:30', sip('oak', { score: 4, words: ['oak', 'driedFruit', 'sharp'] })],
  ['2026-04-25 11:30', sip('little oak', { score: 2, words: ['vanilla', 'oak'], by: 'both of us' })],
  ['2026-05-10 14:30', sip('jug 4', { score: 3, words: ['blossom', 'dry'], text: 'Perfume, then dust.' })],
  ['2026-06-27 11:30', sip('little oak', { score: 3, words: ['oak', 'apple', 'soft'], by: 'both of us' })],
  ['2026-07-12 14:30', sip('jug 4', { score: null, words: ['dry'], text: 'Closed. No score today.' })],
  ['2026-08-09 14:30', sip('jug 8', { score: 2, words: ['honey', 'harsh'] })],
  ['2026-08-16 12:30', sip('oak', { score: 4, words: ['oak', 'driedFruit', 'bright', 'tannin'] })],
  ['2026-10-04 14:30', sip('jug 8', { score: 4, words: ['honey', 'blossom', 'offDry'] })],
  [
    '2026-10-25 11:30',
    sip('little oak', { score: 5, words: ['oak', 'apple', 'tannin'], by: 'the neighbours too' }),
  ],
  ['2026-11-20 12:30', sip('oak', { score: 5, words: ['oak', 'driedFruit', 'bright'] })],
];
