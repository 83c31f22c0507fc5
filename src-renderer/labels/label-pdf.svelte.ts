import type { LabelOrder, MadePdf, PdfStep } from '#core/contract/labels.ts';
import type { Progress } from '#core/contract/cellar.ts';
import { isDefinedError } from '@orpc/client';
import { client } from '../backend/call.ts';
import { LongWork } from '../house-rules/long-work.svelte.ts';
import { bytesOf } from '../paper/bytes-of.ts';
import { saveFile } from '../ui/save-file.ts';

/** What came of making a PDF: handed to the window, or why it was not made. */
export type PdfOutcome =
  | { readonly type: 'made'; readonly made: MadePdf; readonly order: LabelOrder }
  | { readonly type: 'doesNotFit'; readonly ids: readonly string[] }
  | { readonly type: 'nothing' }
  | { readonly type: 'layoutGone' };

/** A PDF on its way to the window; it goes on when the place is left, and can be stopped. */
export const makingPdf = new LongWork<LabelOrder, PdfOutcome>(async (order, signal) =>
  collecting(await client.labels.pdf({ order, path: null }, { signal }), order),
);

async function* collecting(
  steps: AsyncIterator<PdfStep, MadePdf>,
  order: LabelOrder,
): AsyncGenerator<Progress, PdfOutcome, unknown> {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  try {
    for (;;) {
      const step = await steps.next();
      if (step.done === true) {
        saveFile(step.value.name, new Blob(parts, { type: 'application/pdf' }));
        return { type: 'made', made: step.value, order };
      }
      const { piece, ...progress } = step.value;
      if (piece !== '') parts.push(bytesOf(piece));
      yield progress;
    }
  } catch (error) {
    const refused = refusalOf(error);
    if (refused !== null) return refused;
    throw error;
  }
}

function refusalOf(error: unknown): PdfOutcome | null {
  if (!(error instanceof Error) || !isDefinedError(error)) return null;
  switch (Reflect.get(error, 'code')) {
    case 'DOES_NOT_FIT': {
      const { jars } = Reflect.get(error, 'data') as { readonly jars: readonly { readonly id: string }[] };
      return { type: 'doesNotFit', ids: jars.map(({ id }) => id) };
    }
    case 'NOTHING_TO_PRINT':
      return { type: 'nothing' };
    case 'NOT_FOUND':
      return { type: 'layoutGone' };
    default:
      return null;
  }
}
