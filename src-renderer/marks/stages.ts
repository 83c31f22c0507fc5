import { STAGES, type Stage } from '#core/ledger/stage.ts';

/** How a stage is marked: a letter of its own, a name, a longer name, and the name of its pattern in words. */
export interface StageMark {
  readonly letter: string;
  readonly name: string;
  readonly long: string;
  readonly patternWords: string;
}

/** The eleven stages as they are marked everywhere. No two share a letter, so the letter alone tells the stage. */
export const STAGE_MARKS: Readonly<Record<Stage, StageMark>> = {
  empty: { letter: 'E', name: 'Empty', long: 'Empty and clean', patternWords: 'no fill, outline only' },
  waiting: { letter: 'W', name: 'Waiting', long: 'Must waiting to start', patternWords: 'sparse dots' },
  yeast: {
    letter: 'Y',
    name: 'Yeast ferment',
    long: 'Alcoholic ferment, yeast at work',
    patternWords: 'rings of two sizes',
  },
  settling: {
    letter: 'S',
    name: 'Settling',
    long: 'Settling or resting, clearing on the lees',
    patternWords: 'level lines',
  },
  vinegar: {
    letter: 'V',
    name: 'Vinegar ferment',
    long: 'Acetic ferment, mother at work',
    patternWords: 'waves',
  },
  lactic: {
    letter: 'L',
    name: 'Lactic ferment',
    long: 'Brine or lactic ferment',
    patternWords: 'small crosses',
  },
  maturing: { letter: 'M', name: 'Maturing', long: 'Maturing, ageing', patternWords: 'upright lines' },
  ready: {
    letter: 'R',
    name: 'Ready',
    long: 'Ready to use or bottle',
    patternWords: 'solid, no pattern',
  },
  held: { letter: 'H', name: 'Held', long: 'Held, needs a look', patternWords: 'wide slanted stripes' },
  quarantine: {
    letter: 'Q',
    name: 'Quarantine',
    long: 'Spoiled or kept apart',
    patternWords: 'cross-hatch',
  },
  culture: {
    letter: 'C',
    name: 'Culture rest',
    long: 'Culture resting between uses',
    patternWords: 'overlapping arcs',
  },
};

/** The order in which stages are listed in the key and in every choice of stage. */
export const STAGE_ORDER: readonly Stage[] = STAGES;

export type StageInk = 'fill' | 'ink' | 'tint' | 'on-fill' | 'pattern';

/** The CSS value that paints with a stage's colour, for instance `var(--stage-vinegar-fill)`. */
export function stageColour(stage: Stage, ink: StageInk): string {
  return `var(--stage-${stage}-${ink})`;
}
