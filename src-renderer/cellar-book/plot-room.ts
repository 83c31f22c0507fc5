import type { PlotRoom } from './panel-chart.ts';

/** Room for the dates under the last panel, at the usual size of the interface. */
export const DATES_PX = 28;

/** How much larger than usual the interface is; charts grow with it, as all text does. */
export function interfaceZoom(): number {
  return parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
}

/** The room around the plots of a stack that is so many CSS px wide. */
export function plotRoom(width: number, zoom: number): PlotRoom {
  return {
    left: (width < 420 ? 44 : 56) * zoom,
    right: (width < 560 ? 14 : 56) * zoom,
    top: 36 * zoom,
    bottom: DATES_PX * zoom,
  };
}
