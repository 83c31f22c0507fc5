import { NOTHING_READ, type Act } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import type { Entry } from '#core/ledger/entry.ts';
import type { Masses } from '#core/ledger/masses.ts';
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
export const ACT_SIDES = 42;
/** Where vessels may stand. */
export const POSITIONS = 5;
const STAGES: readonly FilledStage[] = ['yeast', 'settling', 'vinegar', 'maturing', 'held', 'ready'];

/** An act that may or may not be allowed: refusals are part of the game. Amounts are shares of what stands there. */
export function actFrom(dice: Dice, cellar: Pick<MemoryCellar, 'get' | 'entries' | 'records'>): Act {
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
      return {
        ...{ ...(batch(next, one, 1) as object), volumeUl: (dice.share + 1) * 50_000 },
        ...(dice.lees % 2 === 0 ? { massesUg: mustOf((dice.share + 1) * 50_000) } : {}),
        ...(dice.lees % 4 === 1 ? { massesUg: spiritOf((dice.share + 1) * 50_000) } : {}),
      } as Act;
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
    case 12: {
      const ingredient = { name: 'what goes in', amountTyped: '', massUg: null };
      const addedUl = dice.share * 5000;
      return dice.share % 3 === 0
        ? { kind: 'addTo', vesselId, what: 'water', volumeUl: addedUl, ingredient }
        : {
            ...{ kind: 'addTo', vesselId, what: 'spirit', volumeUl: addedUl, ingredient },
            ...{ alcoholPercentVolume: 96, massesUg: spiritOf(addedUl) },
          };
    }
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
    case 34: {
      const lotIds = [...cellar.records('lot').keys()].slice(0, dice.lees % 3) as EntryId[];
      const vesselIds = [one, other].map((n) => idOf<never>('vessel', n));
      const root = { kind: 'vessel', vesselId } as const;
      return { kind: 'quarantine', root, vesselIds, lotIds, reason: 'looked odd' };
    }
    case 35: {
      const lots = [...cellar.records('lot').keys()] as EntryId[];
      const lotId = lots[dice.other % Math.max(1, lots.length)] ?? idOf('entry', 1);
      return { kind: 'releaseBottles', lotId, reason: 'looked at again' };
    }
    case 36: {
      const readings = [...cellar.records('reading').keys()] as EntryId[];
      const readingId = readings[dice.other % Math.max(1, readings.length)] ?? null;
      const steps = [{ kind: 'assay' as const, massesUg: { sugar: volumeUl * 50 }, whole: false }];
      return { kind: 'reconcile', vesselId, readingId, note: '', steps };
    }
    case 37:
      return {
        ...{ kind: 'moveVessel', vesselId },
        ...(dice.share % 4 === 0
          ? { shelfId: null, position: null }
          : { shelfId: idOf<never>('shelf', 1), position: (dice.share % POSITIONS) + 1 }),
      };
    case 38:
      return { kind: 'editShelf', shelfId: idOf('shelf', 1), name: 'Long', positions: (dice.share % 8) + 1 };
    case 39:
      return dice.share % 2 === 0
        ? { kind: 'feedCulture', cultureId: idOf('culture', (dice.lees % 2) + 1), text: 'tea' }
        : { kind: 'note', about: { kind: 'vessel', vesselId }, text: 'smells of pears' };
    case 40: {
      const parts = [other, ((dice.other + 1) % VESSELS) + 1].map((n, index) => {
        const part = { batchId: idOf<never>('batch', next * 1000 + index), ferment: 'wine' as const };
        return {
          ...{ toVesselId: idOf<never>('vessel', n), volumeUl: Math.max(1, Math.round(volumeUl / 3)) },
          ...{ toStage: null, newBatch: { ...part, code: `SP-26-${next}${index}`, name: `Part ${index}` } },
        };
      });
      return { kind: 'split', fromVesselId: vesselId, leesUl: dice.lees, parts };
    }
    case 41: {
      const [batchId] = [...cellar.records('batch').keys()].slice(dice.other);
      const named = { name: `Renamed ${dice.lees}`, ferment: 'cider' as const, note: '' };
      return { kind: 'editBatch', batchId: (batchId ?? idOf('batch', 901)) as never, ...named };
    }
    case 32:
      return {
        ...{ kind: 'split', fromVesselId: vesselId, leesUl: dice.lees },
        parts: [other, ((dice.other + 1) % VESSELS) + 1].map((n) => ({
          ...{ toVesselId: idOf('vessel', n), volumeUl: Math.max(1, Math.round(volumeUl / 3)) },
          ...{ toStage: null, newBatch: null },
        })),
      };
    case 33: {
      const parts = [one, (dice.share % VESSELS) + 1]
        .filter((n, index, all) => n !== other && all.indexOf(n) === index)
        .map((n) => ({ fromVesselId: idOf('vessel', n), volumeUl }));
      if (parts.length === 0) return pour(one, other, 1);
      const code = `BL-26-${next}`;
      const newBatch = { batchId: idOf('batch', next), code, name: `Blend ${next}`, ferment: 'cider' };
      const isNew = dice.share % 2 === 0;
      return {
        ...{ kind: 'blend', toVesselId: idOf('vessel', other), parts },
        ...{ newBatch: isNew ? newBatch : null, toStage: null },
      } as Act;
    }
    case 22:
      return {
        ...{ kind: 'drawAndRefill', vesselId, drawnUl: Math.max(1, Math.round(volumeUl / 3)) },
        ...{ toVesselId: dice.share % 2 === 0 ? null : idOf('vessel', (dice.share % VESSELS) + 1) },
        ...{ newBatch: null, toStage: null, fromVesselId: idOf('vessel', other), refillUl: volumeUl },
      };
    case 23:
      return { kind: 'sample', vesselId, volumeUl, purpose: 'gravity', note: '' };
    case 24:
      return { kind: 'filter', vesselId, how: 'paper', lossUl: Math.min(volumeUl, 100_000), note: '' };
    case 25:
      return { kind: 'cleanVessel', vesselId, how: 'washed', restUntilMs: null, note: '' };
    case 26:
      return { kind: 'lendVessel', vesselId, holder: dice.share % 2 === 0 ? 'somebody' : '', note: '' };
    case 27: {
      const lots = [...cellar.records('lot').keys()];
      const lotId = lots[dice.other % Math.max(1, lots.length)] ?? idOf('entry', 1);
      const bottles = (dice.lees % 3) + 1;
      return (
        dice.share % 2 === 0
          ? { kind: 'takeBottles', lotId, bottles, how: 'given', holder: 'somebody', note: '' }
          : {
              ...{ kind: 'returnBottles', lotId, bottles, toVesselId: vesselId },
              ...{ lossUl: dice.lees, toStage: null, note: '' },
            }
      ) as Act;
    }
    case 28:
    case 29: {
      const held = cellar.get('fill', vesselId)?.massesUg ?? {};
      const partOf = (ug: number): number => Math.max(1, Math.round((ug * dice.share) / 99));
      return {
        ...{ kind: 'reconcile', vesselId, readingId: null, note: '' },
        steps:
          dice.act === 28
            ? [
                { kind: 'ferment', sugarUg: partOf(held.sugar ?? 0), yieldPpm: 910_000 },
                { kind: 'acetify', ethanolUg: 1 + dice.share, acidSharePpm: 850_000 },
              ]
            : [
                {
                  kind: 'assay',
                  massesUg: { water: volumeUl * 998, sugar: volumeUl * 100 },
                  whole: dice.share % 2 === 0,
                },
              ],
      };
    }
    case 30:
      return {
        ...{ kind: 'addTo', vesselId, what: 'sugar', volumeUl: 0, massesUg: { sugar: volumeUl * 10 } },
        ingredient: { name: 'sugar', amountTyped: '', massUg: volumeUl * 10 },
      };
    case 31:
      return {
        kind: 'settleVolume',
        vesselId,
        volumeUl,
        cause: dice.share % 2 === 0 ? 'loss' : 'correction',
      };
    default:
      return { kind: 'changeClosure', vesselId, closure: dice.share % 2 === 0 ? 'cloth' : 'airlock' };
  }
}

/** A must of so many microlitres that was measured: 100 g/L sugar. */
export function mustOf(volumeUl: number): Masses {
  return { water: volumeUl * 931, sugar: volumeUl * 100, fixedAcid: volumeUl * 6, other: volumeUl * 11 };
}

/** Spirit of 96 % vol: 757.7 g/L alcohol and 49.7 g/L water (OIML R 22: 93.839 % m/m, 807.42 kg/m³). */
export function spiritOf(volumeUl: number): Masses {
  return { ethanol: Math.round(volumeUl * 757.7), water: Math.round(volumeUl * 49.7) };
}

/** An earlier line told anew: with half its volume, on another vessel, or not at all. */
export function retelling(dice: Dice, target: Entry): Act {
  return { kind: 'restate', corrections: [correctionOf(dice, target)], reason: '' };
}

/** Two earlier lines told anew at once. */
export function retellingOfTwo(dice: Dice, targets: readonly [Entry, Entry]): Act {
  const [one, other] = targets;
  const second = correctionOf({ ...dice, lees: dice.share }, other);
  return { kind: 'restate', corrections: [correctionOf(dice, one), second], reason: '' };
}

type Correction = Extract<Act, { kind: 'restate' }>['corrections'][number];

function correctionOf(dice: Dice, target: Entry): Correction {
  const { act } = target;
  const halved =
    'volumeUl' in act && act.volumeUl > 1 ? { ...act, volumeUl: Math.ceil(act.volumeUl / 2) } : act;
  const moved =
    'toVesselId' in act && act.toVesselId !== null
      ? { ...act, toVesselId: idOf('vessel', (dice.other % VESSELS) + 1) }
      : halved;
  const seeded =
    'cultureId' in act && (act.kind === 'seed' || act.kind === 'pitchYeast')
      ? { ...act, cultureId: idOf('culture', (dice.one % 2) + 1) }
      : moved;
  // A shelf or a place that never was: whoever stood there meanwhile is not asked, so it is only renamed.
  const struck =
    act.kind === 'addShelf' || act.kind === 'addPlace' ? { ...act, name: `Renamed ${dice.share}` } : null;
  const told = [halved, seeded, struck][dice.lees % 3] ?? null;
  // A reading may turn out to have been taken at another hour.
  const laterMs = act.kind === 'recordReading' ? dice.share * 3_600_000 : 0;
  return { entryId: target.id, happenedAtMs: target.happenedAtMs + laterMs, act: told } as Correction;
}

type ActOfVessel = Extract<Act, { kind: 'addVessel' }>;

/** Now and then a line is struck, wherever it stands, or a line that took one back is itself taken back. */
export function actOrReversal(dice: Dice, cellar: MemoryCellar): Act {
  if ((dice.act + dice.other) % 4 !== 0) return actFrom(dice, cellar);
  const target = cellar.entries[Math.floor((cellar.entries.length * dice.share) / 100)];
  if (dice.lees % 4 === 0 && target !== undefined && !isCorrection(target.act))
    return retelling(dice, target);
  const entryId = target?.id ?? idOf<EntryId>('entry', 1);
  return { kind: 'reverse', entryId, how: target?.act.kind === 'reverse' ? 'undo' : 'strike' };
}

/** Now and then an earlier line is told anew; none is struck. */
export function actOrRetelling(dice: Dice, cellar: MemoryCellar): Act {
  const target = cellar.entries[Math.floor((cellar.entries.length * dice.share) / 100)];
  const isRetelling = (dice.act + dice.other) % 4 === 0 && target !== undefined && !isCorrection(target.act);
  if (!isRetelling) return actFrom(dice, cellar);
  const other = cellar.entries[Math.floor((cellar.entries.length * dice.one) / VESSELS)];
  return dice.lees % 5 === 0 && other !== undefined && other !== target && !isCorrection(other.act)
    ? retellingOfTwo(dice, [target, other])
    : retelling(dice, target);
}

export function isCorrection(act: Act): boolean {
  return act.kind === 'reverse' || act.kind === 'restate';
}
