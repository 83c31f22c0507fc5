import type { LabelOrder, MadePdf, PdfStep } from '#core/contract/labels.ts';
import type { ActOf } from '#core/ledger/act.ts';
import { begun, DAY, jar, must, NOW, type TestDesk } from '../desk-for-tests.ts';

/** An order for what is asked, with nothing else settled. */
export function orderOf(jars: LabelOrder['jars'], over: Partial<LabelOrder> = {}): LabelOrder {
  return {
    ...{
      layoutKey: 'a4-3x7',
      jars,
      startAt: 1,
      taken: [],
      filled: 'across',
      printer: null,
      without: [],
      content: 'cellar',
    },
    ...{ freeLine: '', from: '', bestKept: '', blankLines: 0, numbered: false },
    ...over,
  };
}

/** Runs the making of a PDF to its end. */
export async function printed(
  desk: TestDesk,
  order: LabelOrder,
): Promise<{ readonly bytes: Buffer; readonly made: MadePdf; readonly steps: readonly PdfStep[] }> {
  const steps: PdfStep[] = [];
  const run = await desk.client.labels.pdf({ order, path: null });
  for (;;) {
    const step = await run.next();
    if (step.done === true) {
      const bytes = Buffer.concat(steps.map(({ piece }) => Buffer.from(piece, 'base64')));
      return { bytes, made: step.value, steps };
    }
    steps.push(step.value);
  }
}

/** Names that printers, scanners and other people's programs stumble over. */
export const HARD_NAMES = [
  'Plum 👩‍🌾 wine 🫙🍎',
  '🏴󠁧󠁢󠁳󠁣󠁴󠁿 Rowan & heather 👍🏽 1️⃣',
  'خل التفاح 2026 (الأول)',
  'חומץ תפוחים "ישן" 12 ליטר',
  'Cider של סבתא and خل old',
  'Nước mắm ủ Phú Quốc, giấm chuối Việt Nam',
  'Żółć gęślą jaźń, Åkerö, Čačanská, Ľuboš',
  `Kingston black ${'and Dabinett '.repeat(7)}end`,
  'x'.repeat(120),
  '<script>alert(1)</script> & <b>"bold"</b>',
  'Plum\u202Eeniw mulP\u202C wine',
  '梅酢 and 米酢',
  '\u0301combining first',
] as const;

/** A cellar with a batch of each name, each in a jar of its own. */
export async function cellarOf(
  desk: TestDesk,
  names: readonly string[],
): Promise<readonly ActOf<'startBatch'>[]> {
  await begun(desk);
  const batches: ActOf<'startBatch'>[] = [];
  for (const [at, name] of names.entries()) {
    const vessel = await desk.write('addVessel', jar(), NOW - 40 * DAY);
    const act = { ...must(vessel.vesselId, 4, name), ingredients: [] };
    batches.push(await desk.write('startBatch', act, NOW - (30 - at) * DAY));
  }
  return batches;
}
