import type { FilledStage } from '../ledger/stage.ts';

/** The letter of each stage, as on the shelf: on a label it stands alone, in black. No two are alike. */
export const STAGE_LETTERS: Readonly<Record<FilledStage, string>> = {
  waiting: 'W',
  yeast: 'Y',
  settling: 'S',
  vinegar: 'V',
  lactic: 'L',
  maturing: 'M',
  ready: 'R',
  held: 'H',
  quarantine: 'Q',
  culture: 'C',
};
