import { STAGE_ORDER, stageColour } from './stages.ts';
import { STAGE_PATTERNS } from './stage-patterns.ts';

const SVG = 'http://www.w3.org/2000/svg';
const HOST_ID = 'stage-patterns';

const make = (name: string, attributes: Readonly<Record<string, string>>): Element => {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
};

/**
 * Puts the stages' patterns into the page once, so that any drawing may fill with `patternFill(stage)`. They are
 * painted with the theme's custom properties and so follow it.
 */
export function ensurePatternDefs(): void {
  if (document.getElementById(HOST_ID) !== null) return;
  const host = make('svg', {
    id: HOST_ID,
    width: '0',
    height: '0',
    'aria-hidden': 'true',
    focusable: 'false',
    style: 'position:absolute',
  });
  const defs = make('defs', {});
  for (const stage of STAGE_ORDER) {
    const tile = STAGE_PATTERNS[stage];
    if (tile === null) continue;
    const pattern = make('pattern', {
      id: `stage-pattern-${stage}`,
      width: String(tile.width),
      height: String(tile.height),
      patternUnits: 'userSpaceOnUse',
      patternTransform: `rotate(${tile.turnDegrees})`,
    });
    pattern.append(
      make('rect', {
        width: String(tile.width),
        height: String(tile.height),
        style: `fill:${stageColour(stage, 'fill')}`,
      }),
    );
    for (const { d, strokeWidth } of tile.strokes) {
      const ink = stageColour(stage, 'pattern');
      pattern.append(
        make('path', {
          d,
          style: strokeWidth === 0 ? `fill:${ink}` : `fill:none;stroke:${ink};stroke-width:${strokeWidth}`,
        }),
      );
    }
    defs.append(pattern);
  }
  host.append(defs);
  document.body.append(host);
}

/** What to fill with: the stage's pattern, its plain colour where the pattern is none, nothing when it is empty. */
export function patternFill(stage: (typeof STAGE_ORDER)[number]): string {
  if (stage === 'empty') return 'none';
  return STAGE_PATTERNS[stage] === null ? stageColour(stage, 'fill') : `url(#stage-pattern-${stage})`;
}
