import type { LabelJar, LabelOrder, LabelPreview, Labelled } from '#core/contract/labels.ts';
import { pageAndPlace, placesOf, sheetsFor } from '#core/labels/placing.ts';
import type { CellarSession } from '../cellar/session.ts';
import { openJarsQuery } from './jars-query.ts';
import { openLabelDesk, type LabelDeskSettings } from './label-desk.ts';
import { openLabelDeskStore } from './label-desk-store.ts';

export interface LabelsService {
  readonly desk: LabelDeskSettings;
  jars(asked: {
    readonly text: string;
    readonly of: readonly Labelled[] | null;
    readonly kinds: readonly Labelled['kind'][];
    readonly limit: number;
  }): LabelJar[];
  /** Null when there is no such layout. */
  preview(order: LabelOrder, fromPage: number, pages: number): LabelPreview | null;
}

export function openLabels(session: CellarSession): LabelsService {
  const { sqlite } = session.cellar;
  const query = openJarsQuery(sqlite);
  const desk = openLabelDesk(openLabelDeskStore(sqlite), session.clock, session.newId);
  return {
    desk,
    jars: ({ text, of, kinds, limit }) =>
      of === null
        ? query.search(text, kinds, limit)
        : of.flatMap((one) => query.one(one) ?? []).slice(0, limit),
    preview(order, fromPage, pages) {
      const layout = desk.layout(order.layoutKey);
      if (layout === null) return null;
      const found = order.jars.map(({ of, copies }, index) => ({ jar: query.one(of), copies, index }));
      const there = found.flatMap(({ jar, copies, index }) => (jar === null ? [] : [{ jar, copies, index }]));
      const places = placesOf(layout, order.filled);
      const labels = there.flatMap(({ copies, index }) =>
        Array.from({ length: copies }, (_, copy) => ({ jar: index, copy })),
      );
      const placed = labels.flatMap((label, nth) => {
        const { page, place } = pageAndPlace(layout, order.startAt, nth);
        const at = places[place - 1];
        if (at === undefined || page < fromPage || page >= fromPage + pages) return [];
        return [{ ...label, ...at, page, drawing: 0 }];
      });
      return {
        ...{ layout, places, placed, labels: labels.length },
        ...sheetsFor(layout, order.startAt, labels.length),
        drawings: [{ texts: [], rules: [], figures: [], code: null }],
        told: there.map(({ jar, index }) => ({
          ...{ jar: index, id: jar.id, name: jar.name, notes: [], cautions: [], smallestPt: 6.5, code: null },
        })),
        gone: found.flatMap(({ jar, index }) => (jar === null ? [index] : [])),
        calibration: desk.calibration(order.printer, layout),
      };
    },
  };
}
