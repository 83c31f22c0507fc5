import { z } from 'zod';
import { ActDraft } from '#core/ledger/act.ts';
import { EntryId } from '#core/ledger/ids.ts';
import { draftFor } from '../shell/drafts.ts';

/** One line of a correction as it is kept through a reload. */
const Kept = z.array(
  z.object({
    entryId: EntryId,
    act: ActDraft.nullable(),
    happenedAtMs: z.int().nullable(),
    names: z.record(z.string(), z.string()),
  }),
);
export type KeptCorrection = z.infer<typeof Kept>;

/** A correction that was asked and not carried out, kept under the line it began with. */
export function keptCorrection(root: string) {
  const draft = draftFor<{ lines: string; reason: string }>(`correction:${root}`);
  return {
    read(): { readonly lines: KeptCorrection; readonly reason: string } | null {
      const kept = draft.read();
      if (kept?.lines === undefined) return null;
      const lines = Kept.safeParse(parsed(kept.lines));
      if (!lines.success || lines.data.length === 0) return null;
      return { lines: lines.data, reason: kept.reason ?? '' };
    },
    keep: (lines: KeptCorrection, reason: string): void => {
      draft.keep({ lines: JSON.stringify(lines), reason });
    },
    forget: (): void => {
      draft.forget();
    },
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
