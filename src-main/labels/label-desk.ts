import type { Clock, NewId } from '#core/base/ports.ts';
import { err, ok, type Result } from '#core/base/result.ts';
import type { Calibration, LabelDesk, SheetCell } from '#core/contract/labels.ts';
import { layoutProblems, type LabelLayout, type LayoutProblem, type OwnLayout } from '#core/labels/layout.ts';
import { BUILT_IN_LAYOUTS } from '#core/labels/layouts.ts';
import { isSameSheet, placeOfCell, sheetKind } from '#core/labels/placing.ts';
import type { LabelDeskStore } from './label-desk-store.ts';

export const OWN_LAYOUTS_MOST = 100;
export const CALIBRATIONS_MOST = 60;
/** So many begun sheets are remembered, the newest. */
const SHEETS_MOST = 200;

export type LayoutNotKept =
  | { readonly type: 'NotFound' }
  | { readonly type: 'Refused'; readonly problems: readonly LayoutProblem[] }
  | { readonly type: 'TooMany'; readonly most: number };

/** Layouts, calibrations of printers, and how far each kind of sheet was used. */
export interface LabelDeskSettings {
  read(): LabelDesk;
  layout(key: string): LabelLayout | null;
  calibration(printer: string | null, layout: LabelLayout): Calibration | null;
  saveLayout(layout: OwnLayout): Result<string, LayoutNotKept>;
  /** False for a layout that is not the keeper's own. */
  dropLayout(key: string): boolean;
  /** False when there are too many already. */
  saveCalibration(calibration: Calibration): boolean;
  dropCalibration(which: Pick<Calibration, 'printer' | 'paper'>): boolean;
  markUsed(layoutKey: string, taken: readonly SheetCell[]): boolean;
}

export function openLabelDesk(store: LabelDeskStore, clock: Clock, newId: NewId): LabelDeskSettings {
  const read = (): LabelDesk => {
    const kept = store.read();
    const own = [...kept.layouts].sort((a, b) => a.name.localeCompare(b.name));
    const layouts = [...BUILT_IN_LAYOUTS, ...own];
    // A sheet that was begun counts only while its layout still is of that kind.
    const used = kept.used.filter((one) =>
      layouts.some((of) => of.key === one.layoutKey && isSameSheet(of, one.sheet)),
    );
    return { ...kept, layouts, used };
  };
  const layout = (key: string): LabelLayout | null => read().layouts.find((l) => l.key === key) ?? null;
  return {
    read,
    layout,
    calibration: (printer, { paper }) =>
      store.read().calibrations.find((c) => c.printer === printer && c.paper === paper) ?? null,
    saveLayout(asked) {
      const kept = store.read();
      const problems = layoutProblems(asked);
      if (problems.length > 0) return err({ type: 'Refused', problems });
      const isNew = asked.key === '';
      if (!isNew && !kept.layouts.some(({ key }) => key === asked.key)) return err({ type: 'NotFound' });
      if (isNew && kept.layouts.length >= OWN_LAYOUTS_MOST) {
        return err({ type: 'TooMany', most: OWN_LAYOUTS_MOST });
      }
      const key = isNew ? `own-${newId()}`.slice(0, 40) : asked.key;
      const layouts = kept.layouts.filter((l) => l.key !== key);
      store.keep({ ...kept, layouts: [...layouts, { ...asked, key, own: true, measureFirst: false }] });
      return ok(key);
    },
    dropLayout(key) {
      const kept = store.read();
      const layouts = kept.layouts.filter((l) => l.key !== key);
      if (layouts.length === kept.layouts.length) return false;
      store.keep({ ...kept, layouts, used: kept.used.filter((u) => u.layoutKey !== key) });
      return true;
    },
    saveCalibration(calibration) {
      const kept = store.read();
      const others = kept.calibrations.filter((c) => !isOf(c, calibration));
      if (others.length >= CALIBRATIONS_MOST) return false;
      store.keep({ ...kept, calibrations: [...others, calibration] });
      return true;
    },
    dropCalibration(which) {
      const kept = store.read();
      const calibrations = kept.calibrations.filter((c) => !isOf(c, which));
      if (calibrations.length === kept.calibrations.length) return false;
      store.keep({ ...kept, calibrations });
      return true;
    },
    markUsed(layoutKey, taken) {
      const of = layout(layoutKey);
      if (of === null) return false;
      const kept = store.read();
      const used = kept.used.filter((u) => u.layoutKey !== layoutKey || !isSameSheet(u.sheet, of));
      const there = taken.filter((cell) => placeOfCell(of, 'across', cell) !== null);
      const mark = { layoutKey, taken: there, sheet: sheetKind(of), atMs: clock() };
      store.keep({ ...kept, used: [...used, ...(there.length === 0 ? [] : [mark])].slice(-SHEETS_MOST) });
      return true;
    },
  };
}

function isOf(c: Calibration, which: Pick<Calibration, 'printer' | 'paper'>): boolean {
  return c.printer === which.printer && c.paper === which.paper;
}
