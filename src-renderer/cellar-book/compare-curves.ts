import type { Leaf } from '#core/contract/book.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { dayZeroOf } from './compare-rows.ts';
import { MEASURES, readingPanels, type Measure, type ReadingPanel } from './reading-panels.ts';
import { MS_PER_DAY } from './time-axis.ts';

/** One batch's curve on the shared axis: `x` in days since its liquid was started. */
export interface Curve {
  readonly batchId: string;
  readonly name: string;
  readonly unit: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly gapDays: number;
}

/** All curves of one measure; `units` has more than one when they cannot be laid over each other as they stand. */
export interface MeasureCurves {
  readonly measure: Measure;
  readonly title: string;
  readonly decimals: number;
  readonly scale: ReadingPanel['scale'];
  readonly curves: readonly Curve[];
  readonly units: readonly string[];
}

/** The readings of several batches on one axis of days, each counted from the start of its liquid. */
export function compareCurves(leaves: readonly Leaf[], house: HouseUnits): readonly MeasureCurves[] {
  const all = leaves.map((leaf) => ({ leaf, panels: readingPanels(leaf.readings, house) }));
  return MEASURES.flatMap((measure): MeasureCurves[] => {
    const found = all.flatMap(({ leaf, panels }) => {
      const panel = panels.find((one) => one.measure === measure);
      return panel === undefined ? [] : [{ leaf, panel }];
    });
    const [first] = found;
    if (first === undefined) return [];
    const curves = found.map(({ leaf, panel }): Curve => ({
      ...{ batchId: leaf.batchId, name: leaf.name, unit: panel.unit, gapDays: panel.gapDays },
      points: panel.points.map(({ atMs, y }) => ({ x: (atMs - dayZeroOf(leaf)) / MS_PER_DAY, y })),
    }));
    const { title, decimals, scale } = first.panel;
    return [{ measure, title, decimals, scale, curves, units: [...new Set(curves.map(({ unit }) => unit))] }];
  });
}
