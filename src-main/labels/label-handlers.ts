import { implement } from '@orpc/server';
import { labelsContract } from '#core/contract/labels.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { FileRefused } from '../cellar/file-refused.ts';
import { CALIBRATIONS_MOST } from './label-desk.ts';
import { NotPrinted } from './make-pdf.ts';

/** Answers the methods of the Label Desk. */
export function labelHandlers(desk: CellarDesk) {
  const os = implement(labelsContract);
  const labels = () => desk.services.labels;
  return os.router({
    jars: os.jars.handler(({ input }) => labels().jars(input)),
    desk: os.desk.handler(() => labels().desk.read()),
    saveLayout: os.saveLayout.handler(({ input, errors }) => {
      const kept = labels().desk.saveLayout(input);
      if (kept.ok) return { key: kept.value, desk: labels().desk.read() };
      switch (kept.error.type) {
        case 'NotFound':
          throw errors.NOT_FOUND({ data: { what: 'layout', id: input.key } });
        case 'TooMany':
          throw errors.TOO_MANY({ data: { most: kept.error.most } });
        case 'Refused':
          throw errors.LAYOUT_REFUSED({ data: { problems: [...kept.error.problems] } });
      }
    }),
    dropLayout: os.dropLayout.handler(({ input, errors }) => {
      if (!labels().desk.dropLayout(input.key))
        throw errors.NOT_FOUND({ data: { what: 'layout', id: input.key } });
      return labels().desk.read();
    }),
    saveCalibration: os.saveCalibration.handler(({ input, errors }) => {
      if (!labels().desk.saveCalibration(input)) throw errors.TOO_MANY({ data: { most: CALIBRATIONS_MOST } });
      return labels().desk.read();
    }),
    dropCalibration: os.dropCalibration.handler(({ input, errors }) => {
      if (!labels().desk.dropCalibration(input))
        throw errors.NOT_FOUND({ data: { what: 'calibration', id: input.printer } });
      return labels().desk.read();
    }),
    markUsed: os.markUsed.handler(({ input, errors }) => {
      if (!labels().desk.markUsed(input.layoutKey, input.taken))
        throw errors.NOT_FOUND({ data: { what: 'layout', id: input.layoutKey } });
      return labels().desk.read();
    }),
    preview: os.preview.handler(({ input, errors }) => {
      const preview = labels().preview(input.order, input.fromPage, input.pages);
      if (preview === null) throw errors.NOT_FOUND({ data: { what: 'layout', id: input.order.layoutKey } });
      return preview;
    }),
    pdf: os.pdf.handler(async function* ({ input, errors, signal }) {
      const steps = labels().pdf(input.order, input.path, signal);
      if (steps === null) throw errors.NOT_FOUND({ data: { what: 'layout', id: input.order.layoutKey } });
      try {
        return yield* steps;
      } catch (error) {
        if (error instanceof FileRefused) throw errors.FILE_REFUSED({ data: error.refusal });
        if (!(error instanceof NotPrinted)) throw error;
        if (error.why.type === 'NothingToPrint') throw errors.NOTHING_TO_PRINT();
        throw errors.DOES_NOT_FIT({ data: { jars: [...error.why.jars] } });
      }
    }),
    testSheet: os.testSheet.handler(async ({ input, errors }) => {
      const sheet = labels().testSheet(input);
      if (sheet === null) throw errors.NOT_FOUND({ data: { what: 'layout', id: input.layoutKey } });
      const pdf = await sheet;
      return { pdf, name: pdf.name };
    }),
    testSheetDrawn: os.testSheetDrawn.handler(({ input, errors }) => {
      const sheet = labels().testSheetDrawn(input);
      if (sheet === null) throw errors.NOT_FOUND({ data: { what: 'layout', id: input.layoutKey } });
      return { ...sheet, marks: [...sheet.marks] };
    }),
  });
}
