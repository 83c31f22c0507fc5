import { LABEL_PARTS, type LabelPart } from '#core/labels/label-part.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';

/** What is chosen at the desk beside the jars; kept by the window from visit to visit. */
export interface DeskChoices {
  readonly layoutKey: string;
  readonly filled: 'across' | 'down';
  readonly printer: string | null;
  readonly without: readonly LabelPart[];
  readonly content: 'cellar' | 'gift';
  readonly freeLine: string;
  readonly from: string;
  readonly bestKept: string;
  readonly blankLines: number;
  readonly numbered: boolean;
  readonly zoom: 'sheet' | 'real';
  /** The reminder about wet ink has been read. */
  readonly inkRead: boolean;
}

export const LINE_MAX = 120;

export function choicesAtFirst(rules: Pick<HouseRules, 'volume'>): DeskChoices {
  return {
    layoutKey: rules.volume === 'us' ? 'let-3x10' : 'a4-3x7',
    ...{
      filled: 'across',
      printer: null,
      without: [],
      content: 'cellar',
      freeLine: '',
      from: '',
      bestKept: '',
    },
    ...{ blankLines: 0, numbered: true, zoom: 'sheet', inkRead: false },
  };
}

/** What was kept, as far as it still makes sense; the rest is as at first. */
export function choicesFrom(kept: unknown, first: DeskChoices): DeskChoices {
  if (typeof kept !== 'object' || kept === null) return first;
  const get = (name: keyof DeskChoices): unknown => Reflect.get(kept, name);
  const text = (name: keyof DeskChoices, most = LINE_MAX): string => {
    const value = get(name);
    return typeof value === 'string' ? value.slice(0, most) : '';
  };
  const without = get('without');
  const blankLines = get('blankLines');
  return {
    layoutKey: /^[a-z0-9][a-z0-9.-]{0,39}$/u.test(text('layoutKey')) ? text('layoutKey') : first.layoutKey,
    filled: get('filled') === 'down' ? 'down' : 'across',
    printer: text('printer', 60) === '' ? null : text('printer', 60),
    without: Array.isArray(without) ? LABEL_PARTS.filter((part) => without.includes(part)) : [],
    content: get('content') === 'gift' ? 'gift' : 'cellar',
    ...{ freeLine: text('freeLine'), from: text('from'), bestKept: text('bestKept') },
    blankLines:
      typeof blankLines === 'number' && Number.isInteger(blankLines) && blankLines >= 0 && blankLines <= 12
        ? blankLines
        : 0,
    numbered: get('numbered') !== false,
    zoom: get('zoom') === 'real' ? 'real' : 'sheet',
    inkRead: get('inkRead') === true,
  };
}
