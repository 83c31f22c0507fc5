import { NOTHING_READ, type Act } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import type { MemoryCellar } from '#core/ledger/memory-cellar.ts';
import { FERMENT_KINDS, type FilledStage } from '#core/ledger/stage.ts';
import { batch, idOf, LITRE, mother, pour, vessel } from './cellar-of.ts';

/** One line of dice: which act, which vessels, how much. Small numbers, so that a failing history shrinks to a short one. */
export interface Dice {
  readonly act: number;
  readonly one: number;
  readonly other: number;
  readonly share: number;
  readonly lees: number;
}

export const VESSELS = 6;
/** How many sorts of act the dice can show. */
export const ACT_SIDES = 22;
const STAGES: readonly FilledStage[] = ['yeast', 'settling', 'vinegar', 'maturing', 'held', 'ready'];

/** An act that may or may not be allowed: refusals are part of the game. Amounts are shares of what stands there. */
export function actFrom(dice: Dice, cellar: MemoryCellar): Act {
  const one = (dice.one % VESSELS) + 1;
  const other = (dice.other % VESSELS) + 1;
  const vesselId = idOf<never>('vessel', one);
  const heldUl = cellar.get('fill', vesselId)?.volumeUl ?? 3 * LITRE;
  const volumeUl = Math.max(1, Math.round((heldUl * (dice.share + 1)) / 100));
  const next = cellar.entries.length + 1;
  const stage = STAGES[dice.share % STAGES.length] ?? 'held';
  switch (dice.act % ACT_SIDES) {
    case 0:
    case 1:
      return { ...(batch(next, one, 1) as object), volumeUl: (dice.share + 1) * 50_000 } as Act;
    case 2:
    case 3:
    case 4:
      return pour(one, other, 1, { volumeUl, leesUl: Math.round((heldUl * dice.lees) / 200) });
    case 5: {
      const ferment = FERMENT_KINDS[dice.share % FERMENT_KINDS.length];
      return pour(one, other, 1, {
        volumeUl,
        newBatch: { batchId: idOf('batch', next), code: `PB-26-${next}`, name: `Part ${next}`, ferment },
        toStage: stage,
      });
    }
    case 6:
      return {
        ...{
          kind: 'seed',
          vesselId,
          cultureId: idOf('culture', 1),
          fromVesselId: idOf('vessel', other),
          volumeUl,
        },
        ...{ what: '', toStage: 'vinegar' },
      };
    case 7:
      return { kind: 'drawOff', vesselId, volumeUl, purpose: '' };
    case 8:
      return {
        kind: 'bottle',
        vesselId,
        bottles: (dice.share % 4) + 1,
        bottleUl: 100_000,
        lossUl: dice.lees,
        note: '',
      };
    case 9:
      return { kind: 'changeStage', vesselId, stage, reason: '' };
    case 10:
      return {
        kind: 'recordReading',
        vesselId,
        values: { ...NOTHING_READ, gravitySg: 1 + dice.share / 1000 },
      };
    case 11:
      return { kind: 'settleVolume', vesselId, volumeUl, cause: 'evaporation' };
    case 12:
      return {
        ...{ kind: 'addTo', vesselId, what: 'water', volumeUl: dice.share * 1000 },
        ingredient: { name: 'water', amountTyped: '', massUg: null },
      };
    case 13:
      return dice.share % 2 === 0
        ? mother(next, one, 1)
        : { kind: 'discard', vesselId, volumeUl, reason: '' };
    case 14: {
      const facts = dice.share % 2 === 0 ? { recipient: 'child' as const } : { concentrated: false };
      return { kind: 'tellFacts', vesselId, facts };
    }
    case 15:
      return { kind: 'heat', vesselId, reachedCelsius: 60 + dice.lees, minutes: dice.share, note: '' };
    case 16:
      return { kind: 'overrule', vesselId, use: 'dressSalad', reason: 'tasted and known' };
    case 17: {
      const { vesselId: id, ...fields } = vessel(one, (dice.share % 8) + 1) as ActOfVessel;
      const { number: _number, shelfId: _shelf, position: _position, ...rest } = fields;
      return { ...rest, kind: 'editVessel', vesselId: id };
    }
    case 18:
      return dice.share % 3 === 0
        ? { kind: 'retireVessel', vesselId, reason: '' }
        : { kind: 'pitchYeast', vesselId, cultureId: idOf('culture', 1), yeast: '', massUg: null };
    case 20: {
      const score = dice.lees % 6 === 0 ? null : dice.lees % 6;
      const about = { kind: 'vessel', vesselId } as const;
      return { kind: 'tasteNote', about, words: ['sharp', 'oak'], score, text: '', by: 'one of us' };
    }
    case 21:
      return dice.share % 3 === 0
        ? { kind: 'editCaption', photoId: idOf('entry', next - 1), caption: `caption ${dice.lees}` }
        : {
            ...{ kind: 'addPhoto', about: { kind: 'vessel', vesselId }, checksum: 'ab'.repeat(32) },
            ...{ widthPx: 4, heightPx: 3, caption: '' },
          };
    default:
      return { kind: 'changeClosure', vesselId, closure: dice.share % 2 === 0 ? 'cloth' : 'airlock' };
  }
}

type ActOfVessel = Extract<Act, { kind: 'addVessel' }>;

/** Now and then a line is struck, wherever it stands, or a line that took one back is itself taken back. */
export function actOrReversal(dice: Dice, cellar: MemoryCellar): Act {
  if ((dice.act + dice.other) % 4 !== 0) return actFrom(dice, cellar);
  const target = cellar.entries[Math.floor((cellar.entries.length * dice.share) / 100)];
  const entryId = target?.id ?? idOf<EntryId>('entry', 1);
  return { kind: 'reverse', entryId, how: target?.act.kind === 'reverse' ? 'undo' : 'strike' };
}
