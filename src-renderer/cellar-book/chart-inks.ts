import type { Measure } from './reading-panels.ts';

/** What the charts are drawn with: colours as the page's theme has them now, and its type. */
export interface ChartInks {
  readonly text: string;
  readonly muted: string;
  readonly line: string;
  readonly hairline: string;
  readonly paper: string;
  readonly focus: string;
  readonly measure: Readonly<Record<Measure, string>>;
  readonly face: string;
  /** Size of small type in px; follows the size of the interface. */
  readonly typePx: number;
}

/** Reads the inks from the custom properties that hold at an element. */
export function chartInks(element: Element): ChartInks {
  const style = getComputedStyle(element);
  const of = (name: string): string => style.getPropertyValue(name).trim() || style.color;
  return {
    text: of('--text'),
    muted: of('--text-muted'),
    line: of('--line'),
    hairline: of('--hairline'),
    paper: of('--paper'),
    focus: of('--focus'),
    measure: {
      gravity: of('--accent'),
      acidity: of('--stage-vinegar-ink'),
      ph: of('--stage-lactic-ink'),
      temperature: of('--text'),
      score: of('--stage-ready-ink'),
    },
    face: style.fontFamily,
    typePx: parseFloat(getComputedStyle(document.documentElement).fontSize) * 0.78,
  };
}

/** Black on white, for paper. */
export function paperInks(inks: ChartInks): ChartInks {
  const black = '#000000';
  return {
    ...{ text: black, muted: black, line: '#555555', hairline: '#bbbbbb', paper: '#ffffff', focus: black },
    measure: { gravity: black, acidity: black, ph: black, temperature: black, score: black },
    face: inks.face,
    typePx: 11.5,
  };
}
