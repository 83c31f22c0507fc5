import {
  Chart,
  Decimation,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  type ChartConfiguration,
  type Plugin,
} from 'chart.js';
import type { ChartInks } from './chart-inks.ts';
import type { Measure, ReadingPanel } from './reading-panels.ts';
import { dayTicks, MS_PER_DAY } from './time-axis.ts';
import { valueAxis } from './value-axis.ts';
import { sayShortDate } from '../words/time-words.ts';

Chart.register(LineController, LineElement, PointElement, LinearScale, Decimation);

/** Everything that stands on the stack of panels besides the readings themselves. */
export interface ChartView {
  readonly fromMs: number;
  readonly toMs: number;
  /** Null when today is not part of what is shown. */
  readonly todayMs: number | null;
  readonly pinsMs: readonly number[];
  /** Where the cursor stands, or null. */
  readonly cursorMs: number | null;
  readonly target: {
    readonly measure: Measure;
    readonly value: number;
    readonly label: string;
    /** For a plot too narrow for both this label and the last value. */
    readonly shortLabel: string;
  } | null;
}

/** Room in px around the plot, the same in every panel so that one time stands at one place in all of them. */
export interface PlotRoom {
  readonly left: number;
  readonly right: number;
  /** Above each plot, for its title. */
  readonly top: number;
  /** Under the last plot, for the dates. */
  readonly bottom: number;
}

const FORMS = {
  gravity: 'circle',
  acidity: 'rect',
  ph: 'rectRot',
  temperature: 'triangle',
  score: 'circle',
} as const;
/** Marks shrink, and lose their pale edge, as they crowd. */
const RADIUS = { roomy: 4.6, close: 3, dense: 2 } as const;
const BORDER = { roomy: 1.4, close: 0.6, dense: 0 } as const;
/** Above so many readings the line is thinned by the largest-triangle method (Steinarsson 2013). */
const THINNED_FROM = 2000;

export type PanelChart = Chart<'line', { x: number; y: number }[]>;

export interface PanelParts {
  readonly panel: ReadingPanel;
  readonly room: PlotRoom;
  readonly isLast: boolean;
  readonly inks: () => ChartInks;
  readonly view: () => ChartView;
}

/** Draws one panel of the stack on a canvas. It follows `inks` and `view` at each redraw. */
export function panelChart(canvas: HTMLCanvasElement, parts: PanelParts): PanelChart {
  return new Chart<'line', { x: number; y: number }[]>(canvas, panelConfig(parts));
}

function panelConfig(parts: PanelParts): ChartConfiguration<'line', { x: number; y: number }[]> {
  const { panel, room, isLast, inks, view } = parts;
  const ink = (): string => inks().measure[panel.measure];
  const points = panel.points.map(({ x, y }) => ({ x, y }));
  const crowd = points.length > 120 ? 'dense' : points.length > 36 ? 'close' : 'roomy';
  const axis = axisOf(panel, view());
  return {
    type: 'line',
    data: {
      datasets: [
        {
          data: points,
          borderColor: ink,
          borderWidth: 2.4,
          borderJoinStyle: 'round',
          segment: {
            borderColor: ({ p0, p1 }) =>
              (p1.parsed.x ?? 0) - (p0.parsed.x ?? 0) > panel.gapDays ? 'transparent' : undefined,
          },
          pointStyle: FORMS[panel.measure],
          pointRadius: RADIUS[crowd] + (panel.measure === 'temperature' ? 0.4 : 0),
          pointBackgroundColor: ({ dataIndex }) => (panel.points[dataIndex]?.doubtful ? inks().paper : ink()),
          pointBorderColor: ({ dataIndex }) => (panel.points[dataIndex]?.doubtful ? ink() : inks().paper),
          pointBorderWidth: ({ dataIndex }) => (panel.points[dataIndex]?.doubtful ? 2 : BORDER[crowd]),
          pointHitRadius: 0,
          clip: 8,
        },
      ],
    },
    options: {
      animation: false,
      parsing: false,
      normalized: true,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      layout: { padding: { right: room.right, top: room.top, bottom: isLast ? 0 : 10 } },
      plugins: { decimation: { enabled: points.length > THINNED_FROM, algorithm: 'lttb', samples: 500 } },
      scales: {
        x: {
          type: 'linear',
          min: view().fromMs / MS_PER_DAY,
          max: view().toMs / MS_PER_DAY,
          border: { display: false },
          grid: { display: false },
          afterBuildTicks: (scale) => {
            scale.ticks = ticksFor(scale.width, view(), inks()).map((tick) => ({
              value: tick.atMs / MS_PER_DAY,
              label: tick.label,
            }));
          },
          afterFit: (scale) => {
            scale.height = isLast ? room.bottom : 0;
          },
          ticks: {
            display: isLast,
            autoSkip: false,
            maxRotation: 0,
            color: () => inks().muted,
            font: () => ({ family: inks().face, size: inks().typePx }),
            callback: (value, _index, ticks) =>
              ticks.find((tick) => tick.value === value)?.label ?? sayShortDate(Number(value) * MS_PER_DAY),
          },
        },
        y: {
          min: axis.min,
          max: axis.max,
          afterFit: (scale) => {
            scale.width = room.left;
          },
          border: { display: false },
          grid: { color: () => inks().hairline, drawTicks: false },
          ticks: {
            stepSize: axis.step,
            autoSkip: false,
            padding: 8,
            color: () => inks().muted,
            font: () => ({ family: inks().face, size: inks().typePx }),
            callback: (value) => Number(value).toFixed(axis.decimals),
          },
        },
      },
    },
    plugins: [marks(parts)],
  };
}

/** The axis holds the target too, so that how far it is to go can be seen. */
function axisOf(panel: ReadingPanel, view: ChartView): ReturnType<typeof valueAxis> {
  const values = panel.points.map(({ y }) => y);
  if (view.target?.measure === panel.measure) values.push(view.target.value);
  return valueAxis(panel.scale, values);
}

/** As many date labels as fit side by side. */
function ticksFor(widthPx: number, view: ChartView, inks: ChartInks): ReturnType<typeof dayTicks> {
  return dayTicks({ fromMs: view.fromMs, toMs: view.toMs, most: Math.floor(widthPx / (inks.typePx * 5.4)) });
}

/** Rules, target, cursor and the last value: what Chart.js itself does not draw. */
function marks({ panel, isLast, inks, view }: PanelParts): Plugin<'line'> {
  return {
    id: 'marks',
    beforeDatasetsDraw(chart) {
      const { ctx, chartArea } = chart;
      const { text, line, paper, focus, face, typePx } = inks();
      const { pinsMs, cursorMs, target } = view();
      const foot = isLast ? chartArea.bottom : chart.height;
      ctx.save();
      stroke(ctx, [chartArea.left, chartArea.top], [chartArea.left, chartArea.bottom], line, 1, []);
      for (const atMs of pinsMs) rule(chart, atMs, 0, foot, line, 1, [2, 4]);
      if (cursorMs !== null) rule(chart, cursorMs, chartArea.top, chartArea.bottom, focus, 2, []);
      if (target?.measure === panel.measure) {
        const y = yOf(chart, target.value);
        stroke(ctx, [chartArea.left, y], [chartArea.right, y], text, 1.6, [8, 5]);
        ctx.font = `700 ${typePx}px ${face}`;
        ctx.fillStyle = paper;
        const label = chartArea.width < 320 ? target.shortLabel : target.label;
        const width = ctx.measureText(label).width;
        const foot = targetLabelFoot(y, chartArea.top, typePx);
        ctx.fillRect(chartArea.left + 5, foot - typePx - 1, width + 6, typePx + 4);
        ctx.fillStyle = text;
        ctx.textAlign = 'left';
        ctx.fillText(label, chartArea.left + 8, foot);
      }
      ctx.restore();
    },
    afterDatasetsDraw(chart) {
      const { ctx, chartArea } = chart;
      const { text, face, typePx } = inks();
      const { todayMs, cursorMs } = view();
      ctx.save();
      if (todayMs !== null) {
        rule(chart, todayMs, 0, isLast ? chartArea.bottom : chart.height, text, 1.6, []);
        if (isLast) {
          const x = xOf(chart, todayMs);
          ctx.font = `600 ${typePx}px ${face}`;
          const fits = x + 6 + ctx.measureText('today').width <= chart.width;
          ctx.fillStyle = text;
          ctx.textAlign = fits ? 'left' : 'right';
          ctx.fillText('today', x + (fits ? 6 : -6), chartArea.bottom - 6);
        }
      }
      lastValue(chart, panel, inks(), todayMs);
      const held = cursorMs === null ? undefined : panel.points.find(({ atMs }) => atMs === cursorMs);
      if (held !== undefined) {
        ctx.strokeStyle = inks().focus;
        ctx.lineWidth = 2.5;
        ctx.setLineDash([]);
        ctx.beginPath();
        ctx.arc(xOf(chart, held.atMs), yOf(chart, held.y), 9, 0, 2 * Math.PI);
        ctx.stroke();
      }
      ctx.restore();
    },
  };
}

/**
 * Where the words of the target stand, px down the canvas: above its rule, or beneath it where the title of the panel is in
 * the way, as it is when the target is the highest value there.
 */
export function targetLabelFoot(ruleY: number, plotTop: number, typePx: number): number {
  const above = ruleY - 7;
  return above - typePx < plotTop ? ruleY + typePx + 5 : above;
}

/** The last value beside its point with its date, on the side where neither the line nor the rule of today runs through it. */
function lastValue(chart: Chart, panel: ReadingPanel, inks: ChartInks, todayMs: number | null): void {
  const last = panel.points[panel.points.length - 1];
  const before = panel.points[panel.points.length - 2];
  if (last === undefined) return;
  const { ctx, chartArea } = chart;
  const x = xOf(chart, last.atMs);
  if (x < chartArea.left - 1 || x > chartArea.right + 1) return;
  const y = yOf(chart, last.y);
  const label = `${last.y.toFixed(panel.decimals)}${SUFFIX[panel.measure]} on ${sayShortDate(last.atMs)}`;
  ctx.font = `600 ${inks.typePx + 0.5}px ${inks.face}`;
  const width = ctx.measureText(label).width;
  const today = todayMs === null ? Infinity : xOf(chart, todayMs);
  const fitsRight = x + 12 + width < Math.min(today > x ? today : Infinity, chart.width);
  const rising = before !== undefined && yOf(chart, before.y) > y;
  // Left of the point the line itself comes in, so the label goes to its open side.
  const lift = fitsRight ? inks.typePx * 0.35 : rising || before === undefined ? -10 : inks.typePx + 8;
  const startX = fitsRight ? x + 12 : Math.max(chartArea.left + 4, Math.min(x - 10, chart.width) - width);
  const top = y + lift - inks.typePx;
  ctx.fillStyle = inks.paper;
  ctx.globalAlpha = 0.86;
  ctx.fillRect(startX - 3, top, width + 6, inks.typePx + 5);
  ctx.globalAlpha = 1;
  ctx.fillStyle = inks.measure[panel.measure];
  ctx.textAlign = 'left';
  ctx.fillText(label, startX, y + lift);
}

const SUFFIX: Readonly<Record<Measure, string>> = {
  gravity: '',
  acidity: ' %',
  ph: '',
  temperature: '°',
  score: '',
};

function xOf(chart: Chart, atMs: number): number {
  return chart.scales['x']?.getPixelForValue(atMs / MS_PER_DAY) ?? 0;
}

function yOf(chart: Chart, value: number): number {
  return chart.scales['y']?.getPixelForValue(value) ?? 0;
}

function rule(
  chart: Chart,
  atMs: number,
  top: number,
  bottom: number,
  ink: string,
  width: number,
  dash: number[],
): void {
  const x = xOf(chart, atMs);
  if (x < chart.chartArea.left - 1 || x > chart.chartArea.right + 1) return;
  stroke(chart.ctx, [x, top], [x, bottom], ink, width, dash);
}

function stroke(
  ctx: CanvasRenderingContext2D,
  from: readonly [number, number],
  to: readonly [number, number],
  ink: string,
  width: number,
  dash: number[],
): void {
  ctx.strokeStyle = ink;
  ctx.lineWidth = width;
  ctx.setLineDash(dash);
  ctx.beginPath();
  ctx.moveTo(...from);
  ctx.lineTo(...to);
  ctx.stroke();
}
