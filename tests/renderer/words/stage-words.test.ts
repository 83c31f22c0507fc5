import { describe, expect, it } from 'vitest';
import { STAGES } from '#core/ledger/stage.ts';
import { STAGE_MARKS, STAGE_ORDER } from '#renderer/marks/stages.ts';
import { sayConcern, sayConcernShort, sayNoneInStage, sayStage } from '#renderer/words/stage-words.ts';

describe('stages in words', () => {
  it('have a name each, and no two a letter', () => {
    expect(new Set(STAGES.map(sayStage)).size).toBe(STAGES.length);
    expect(new Set(STAGES.map((stage) => STAGE_MARKS[stage].letter)).size).toBe(STAGES.length);
    expect([...STAGE_ORDER].sort()).toEqual([...STAGES].sort());
  });

  it('say what an empty filter found', () => {
    expect(sayNoneInStage('held')).toBe('No vessel is Held.');
  });

  it('say why a closure works against the stage and what to do', () => {
    expect(sayConcernShort('motherWithoutAir')).toBe('no air for the mother');
    expect(sayConcern('motherWithoutAir')).toMatch(/cloth/);
    expect(sayConcern('yeastOpenToAir')).toMatch(/water lock/);
  });
});
