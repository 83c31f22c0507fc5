import { expect, it } from 'vitest';
import { STAGE_LETTERS } from '#core/labels/stage-letters.ts';
import { FilledStage } from '#core/ledger/stage.ts';
import { STAGE_MARKS } from '#renderer/marks/stages.ts';

it('a stage has the same letter on a label as on the shelf', () => {
  for (const stage of FilledStage.options) expect(STAGE_LETTERS[stage]).toBe(STAGE_MARKS[stage].letter);
});
