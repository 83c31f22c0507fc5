import type { Page } from '@playwright/test';

/** Milliseconds of the page's own thread in one frame. Time spent waiting for the processor is not counted. */
export interface FrameTimes {
  readonly script: number;
  readonly style: number;
  readonly paint: number;
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
}

const SCRIPT = ['FunctionCall', 'RunMicrotasks', 'EventDispatch', 'FireAnimationFrame'];
const STYLE = ['UpdateLayoutTree', 'Layout'];
const PAINT = ['PrePaint', 'Paint', 'Layerize', 'Commit'];

/** Scrolls the shelves `step` px each frame, down and up again, for so many frames, and gives what each frame took. */
export async function scrollFrames(page: Page, frames: number, step: number): Promise<readonly FrameTimes[]> {
  const session = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  const complete = new Promise((resolve) => session.on('Tracing.tracingComplete', resolve));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    categories: 'devtools.timeline,disabled-by-default-devtools.timeline,toplevel',
  });
  await page.evaluate(scrollScript(frames, step));
  await session.send('Tracing.end');
  await complete;
  await session.detach();
  return binned(events);
}

/** Runs in the page, which has types of its own that are not known here. */
function scrollScript(frames: number, step: number): string {
  return `new Promise((done) => {
    const scroller = document.querySelector('[role="grid"]').parentElement.parentElement;
    const range = Math.max(1, scroller.scrollHeight - scroller.clientHeight);
    let frame = 0;
    const next = () => {
      frame += 1;
      const gone = (frame * ${step}) % (2 * range);
      scroller.scrollTo(0, gone <= range ? gone : 2 * range - gone);
      if (frame < ${frames}) requestAnimationFrame(next);
      else done();
    };
    requestAnimationFrame(next);
  })`;
}

function binned(all: readonly TraceEvent[]): readonly FrameTimes[] {
  const thread = busiestThread(all);
  const events = all.filter((e) => e.ph === 'X' && e.dur !== undefined && `${e.pid}/${e.tid}` === thread);
  const starts = events.filter((e) => e.name === 'FireAnimationFrame').map((e) => e.ts);
  starts.sort((a, b) => a - b);
  const frames = starts.map(() => ({ script: 0, style: 0, paint: 0 }));
  const frameAt = (ts: number): { script: number; style: number; paint: number } | undefined => {
    const after = starts.findIndex((start) => start > ts);
    return frames[after === -1 ? frames.length - 1 : Math.max(0, after - 1)];
  };
  const scripts = outermost(events, SCRIPT);
  for (const e of scripts) add(frameAt(e.ts), 'script', spent(e));
  for (const e of outermost(events, PAINT)) add(frameAt(e.ts), 'paint', spent(e));
  for (const e of outermost(events, STYLE)) {
    add(frameAt(e.ts), 'style', spent(e));
    // The driver's own scrolling makes the page lay itself out at once; that is style and not script.
    const around = scripts.find((s) => s.ts <= e.ts && e.ts < s.ts + (s.dur ?? 0));
    if (around) add(frameAt(around.ts), 'script', -spent(e));
  }
  return frames;
}

function add(
  frame: { script: number; style: number; paint: number } | undefined,
  kind: keyof FrameTimes,
  ms: number,
): void {
  if (frame) frame[kind] += ms;
}

const spent = (event: TraceEvent): number => (event.tdur ?? event.dur ?? 0) / 1000;

function busiestThread(events: readonly TraceEvent[]): string {
  const calls = new Map<string, number>();
  for (const { name, pid, tid } of events)
    if (name === 'FunctionCall') calls.set(`${pid}/${tid}`, (calls.get(`${pid}/${tid}`) ?? 0) + 1);
  return [...calls].sort((a, b) => b[1] - a[1])[0]?.[0] ?? '';
}

/** Events of these names that lie in no other of them. */
function outermost(events: readonly TraceEvent[], names: readonly string[]): readonly TraceEvent[] {
  const found = events.filter((e) => names.includes(e.name));
  found.sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  let end = 0;
  return found.filter((e) => {
    if (e.ts < end) return false;
    end = e.ts + (e.dur ?? 0);
    return true;
  });
}

/** The value that this share of the frames stays under. */
export function percentile(frames: readonly FrameTimes[], kind: keyof FrameTimes, share: number): number {
  const values = frames.map((frame) => frame[kind]).sort((a, b) => a - b);
  return values[Math.min(values.length - 1, Math.floor(values.length * share))] ?? 0;
}
