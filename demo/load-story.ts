import type { Act, ReadingValues } from '#core/ledger/act.ts';
import type { BatchId, CultureId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { Closure, FermentKind, FilledStage, Material, Silhouette } from '#core/ledger/stage.ts';

/** What a made-up cellar needs from outside: ids, and chance that can be repeated. */
export interface Chance {
  readonly newId: () => string;
  /** The next number of 0 up to 1. */
  readonly next: () => number;
}

/** Numbers of 0 up to 1 that look like chance and are the same for the same seed (a 32-bit mixing generator). */
export function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

interface Sort {
  readonly silhouette: Silhouette;
  readonly material: Material;
  readonly closure: Closure;
  readonly litres: readonly number[];
  readonly ferment: FermentKind;
  readonly names: readonly string[];
}

const SORTS: readonly Sort[] = [
  {
    ...{ silhouette: 'demijohn', material: 'glass', closure: 'airlock', litres: [5, 10, 23] },
    ...{ ferment: 'cider', names: ['Orchard cider', 'Late cider', 'Pear and apple'] },
  },
  {
    ...{ silhouette: 'demijohn', material: 'glass', closure: 'airlock', litres: [5, 5, 10] },
    ...{ ferment: 'wine', names: ['Damson wine', 'Elderberry wine', 'Quince wine'] },
  },
  {
    ...{ silhouette: 'jar', material: 'glass', closure: 'cloth', litres: [1, 2, 3] },
    ...{ ferment: 'fruitVinegar', names: ['Apple vinegar', 'Plum vinegar', 'Pear vinegar'] },
  },
  {
    ...{ silhouette: 'crock', material: 'stoneware', closure: 'lid', litres: [3, 5, 10] },
    ...{ ferment: 'brinedVegetables', names: ['White cabbage', 'Red cabbage', 'Turnips'] },
  },
  {
    ...{ silhouette: 'bucket', material: 'foodPlastic', closure: 'lid', litres: [15, 25] },
    ...{ ferment: 'mead', names: ['Heather mead', 'Lime flower mead'] },
  },
  {
    ...{ silhouette: 'cask', material: 'wood', closure: 'cloth', litres: [30, 50] },
    ...{ ferment: 'fruitVinegar', names: ['Red vinegar', 'White vinegar'] },
  },
  {
    ...{ silhouette: 'bottle', material: 'glass', closure: 'cork', litres: [0.75, 1.5] },
    ...{ ferment: 'wine', names: ['Blackberry wine', 'Sloe wine'] },
  },
  {
    ...{ silhouette: 'flask', material: 'glass', closure: 'airlock', litres: [1, 2] },
    ...{ ferment: 'mead', names: ['Trial mead'] },
  },
];

const SHELF_POSITIONS = 40;
const SHELVES_A_PLACE = 6;
/** Every so many vessels one stands nowhere, one stays empty, and one keeps a culture. */
const EVERY = { unplaced: 53, empty: 19, culture: 29 } as const;

const EMPTY_READING: ReadingValues = {
  ...{ gravitySg: null, gravityInstrument: null, gravityCalibrationCelsius: null, temperatureCelsius: null },
  ...{ ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null, acidityMethod: null },
  ...{ acidityUncertainty: null, volumeUl: null, freeSulfiteMgPerL: null, alcoholPercentVolume: null },
  taste: '',
};

/**
 * The acts of a made-up cellar without end: the shelves and vessels first, then what happens in them, a visit to each
 * vessel in turn. The same chance tells the same story.
 */
export function* loadStory(vesselCount: number, chance: Chance): Generator<Act, never, void> {
  const vessels = yield* setUp(vesselCount, chance);
  const lives = vessels.map((vessel) => (vessel.index % EVERY.empty === 7 ? null : lifeIn(vessel, chance)));
  for (;;) {
    for (const life of lives) {
      const act = life?.next().value;
      if (act !== undefined) yield act;
    }
  }
}

interface StandingVessel {
  readonly index: number;
  readonly id: VesselId;
  readonly sort: Sort;
  readonly fillUl: number;
}

function* setUp(vesselCount: number, { newId, next }: Chance): Generator<Act, StandingVessel[], void> {
  const vessels: StandingVessel[] = [];
  let placeId = '' as PlaceId;
  let shelfId = '' as ShelfId;
  let placed = 0;
  for (let index = 0; index < vesselCount; index += 1) {
    const standsNowhere = index % EVERY.unplaced === 11;
    if (!standsNowhere && placed % SHELF_POSITIONS === 0) {
      const shelf = placed / SHELF_POSITIONS;
      if (shelf % SHELVES_A_PLACE === 0) {
        placeId = newId() as PlaceId;
        yield { kind: 'addPlace', placeId, name: `Vault ${shelf / SHELVES_A_PLACE + 1}`, note: '' };
      }
      shelfId = newId() as ShelfId;
      const shelfName = `shelf ${(shelf % SHELVES_A_PLACE) + 1}`;
      yield {
        ...{ kind: 'addShelf', shelfId, placeId, name: shelfName },
        ...{ letter: letterAt(shelf), positions: SHELF_POSITIONS },
      };
    }
    const sort = SORTS[index % SORTS.length];
    if (sort === undefined) throw new Error('there is always a sort');
    const litres = sort.litres[Math.floor(next() * sort.litres.length)] ?? 1;
    const id = newId() as VesselId;
    yield {
      ...{ kind: 'addVessel', vesselId: id, number: index + 1, name: '', silhouette: sort.silhouette },
      ...{ capacityUl: litres * 1_000_000, material: sort.material, closure: sort.closure, note: '' },
      mouth: sort.silhouette === 'demijohn' || sort.silhouette === 'bottle' ? 'narrow' : 'wide',
      ...{ shelfId: standsNowhere ? null : shelfId },
      position: standsNowhere ? null : (placed % SHELF_POSITIONS) + 1,
    };
    if (!standsNowhere) placed += 1;
    vessels.push({ index, id, sort, fillUl: Math.round(litres * (700_000 + next() * 250_000)) });
  }
  return vessels;
}

/** A to Z, then AA, AB and so on to ZZ: enough for 28,080 vessels on shelves. */
function letterAt(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : `${String.fromCharCode(64 + Math.floor(index / 26))}${last}`;
}

function lifeIn(vessel: StandingVessel, chance: Chance): Generator<Act, never, void> {
  if (vessel.index % EVERY.culture === 2) return keptCulture(vessel, chance);
  switch (vessel.sort.ferment) {
    case 'fruitVinegar':
      return vinegars(vessel, chance);
    case 'brinedVegetables':
      return vegetables(vessel, chance);
    default:
      return wines(vessel, chance);
  }
}

function started(
  { index, id, sort, fillUl }: StandingVessel,
  { newId, next }: Chance,
  stage: FilledStage,
  measured: Partial<ReadingValues>,
): Act {
  const name = sort.names[Math.floor(next() * sort.names.length)] ?? 'Must';
  return {
    ...{ kind: 'startBatch', batchId: newId() as BatchId, code: `LD-${newId().slice(-12)}` },
    ...{ name: `${name} ${index + 1}`, ferment: sort.ferment, vesselId: id, volumeUl: fillUl, stage },
    ingredients: [{ name: 'fruit', amountTyped: '8 kg', massUg: 8_000_000_000 }],
    ...{ measured: { ...EMPTY_READING, ...measured }, note: '' },
  };
}

function read(vesselId: VesselId, values: Partial<ReadingValues>): Act {
  return { kind: 'recordReading', vesselId, values: { ...EMPTY_READING, ...values } };
}

const gravity = (sg: number, temperatureCelsius: number): Partial<ReadingValues> => ({
  ...{ gravitySg: Math.round(sg * 1000) / 1000, gravityInstrument: 'hydrometer' },
  ...{ gravityCalibrationCelsius: 20, temperatureCelsius: Math.round(temperatureCelsius) },
});

const acidity = (gramsPer100Ml: number): Partial<ReadingValues> => ({
  ...{ acidityGramsPer100Ml: Math.round(gramsPer100Ml * 10) / 10, acidityAs: 'acetic' },
  acidityMethod: 'burette',
});

function* wines(vessel: StandingVessel, chance: Chance): Generator<Act, never, void> {
  const { id, fillUl } = vessel;
  let stage: FilledStage = pick(['waiting', 'yeast', 'settling', 'maturing', 'ready'], chance);
  for (;;) {
    const original = 1.045 + chance.next() * 0.045;
    yield started(vessel, chance, stage, gravity(stage === 'waiting' ? original : 0.998, 17));
    if (stage === 'waiting') {
      yield { kind: 'pitchYeast', vesselId: id, cultureId: null, yeast: 'dry yeast', massUg: 5_000_000 };
      for (let share = 0.95; share > 0.02; share *= 0.62) {
        yield read(id, gravity(0.997 + (original - 0.997) * share, 16 + chance.next() * 5));
      }
      if (chance.next() < 0.03) yield { kind: 'changeStage', vesselId: id, stage: 'held', reason: 'stands' };
    }
    for (const next of LATER[stage] ?? AFTER_YEAST) {
      yield { kind: 'changeStage', vesselId: id, stage: next, reason: '' };
      yield read(id, { ...gravity(0.997, 13), taste: 'dry, clear' });
    }
    yield { kind: 'drawOff', vesselId: id, volumeUl: fillUl, purpose: 'drunk' };
    stage = 'waiting';
  }
}

const AFTER_YEAST: readonly FilledStage[] = ['settling', 'maturing', 'ready'];
const LATER: Partial<Record<FilledStage, readonly FilledStage[]>> = {
  settling: ['maturing', 'ready'],
  maturing: ['ready'],
  ready: [],
};

function* vinegars(vessel: StandingVessel, chance: Chance): Generator<Act, never, void> {
  const { id, fillUl } = vessel;
  for (;;) {
    let acid = 0.9 + chance.next();
    yield started(vessel, chance, 'vinegar', acidity(acid));
    const end = 5 + chance.next();
    while (acid < end) {
      acid += 0.3 + chance.next() * 0.5;
      yield read(id, acidity(acid));
    }
    if (chance.next() < 0.02) {
      yield { kind: 'changeStage', vesselId: id, stage: 'quarantine', reason: 'spots on the film' };
      yield { kind: 'discard', vesselId: id, volumeUl: fillUl, reason: 'mould' };
      continue;
    }
    yield { kind: 'changeStage', vesselId: id, stage: 'ready', reason: '' };
    const bottleUl = Math.max(1, Math.floor(fillUl / 4));
    yield {
      ...{ kind: 'bottle', vesselId: id, bottles: 4, bottleUl },
      ...{ lossUl: fillUl - 4 * bottleUl, note: '' },
    };
  }
}

function* vegetables(vessel: StandingVessel, chance: Chance): Generator<Act, never, void> {
  const { id, fillUl } = vessel;
  for (;;) {
    yield started(vessel, chance, 'lactic', { ph: 6, phMethod: 'meterToday' });
    for (let ph = 5.7; ph > 3.5; ph -= 0.25 + chance.next() * 0.3) {
      yield read(id, { ph: Math.round(ph * 10) / 10, phMethod: 'meterToday' });
    }
    yield { kind: 'changeStage', vesselId: id, stage: 'maturing', reason: '' };
    yield read(id, { ph: 3.5, phMethod: 'meterToday', taste: 'sour, crisp' });
    yield { kind: 'drawOff', vesselId: id, volumeUl: fillUl, purpose: 'eaten' };
  }
}

function* keptCulture({ index, id, fillUl }: StandingVessel, { newId }: Chance): Generator<Act, never, void> {
  const cultureId = newId() as CultureId;
  yield {
    ...{ kind: 'addCulture', cultureId, name: `Mother ${index + 1}`, sort: 'mother', source: '', note: '' },
    parentCultureId: null,
    standing: {
      ...{ vesselId: id, volumeUl: fillUl, batchId: newId() as BatchId },
      code: `LD-${newId().slice(-12)}`,
    },
  };
  for (;;) yield { kind: 'feedCulture', cultureId, text: 'a splash of cider' };
}

function pick<T>(from: readonly [T, ...T[]], { next }: Chance): T {
  return from[Math.floor(next() * from.length)] ?? from[0];
}
