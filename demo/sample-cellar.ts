import type { Act, ActDraft } from '../src-core/ledger/act.ts';

/** Writes one act at a time and hands it back as written, with the ids it was given. */
export type Teller = (act: ActDraft, happenedAtMs: number, typed?: Readonly<Record<string, string>>) => Act;

export const SAMPLE_NAME = 'Mill House cellar';
/** The sample's clock stands here when it is opened: 25 November 2026, 10:00 UTC. */
export const SAMPLE_NOW_MS = Date.UTC(2026, 10, 25, 10, 0);

export function tellSampleYear(tell: Teller): void {
  tell({ kind: 'addPlace', name: 'Pantry', note: '' }, SAMPLE_NOW_MS);
}
