import type { ActDraft, Ingredient, ReadingDetail, ReadingValues } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { CleanedHow } from '#core/ledger/records.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import type {
  Closure,
  CultureSort,
  FermentKind,
  FilledStage,
  Material,
  Mouth,
  Silhouette,
} from '#core/ledger/stage.ts';
import { momentMs, readings, ug, ul, type Doing, type Drawn, type ToldCellar } from './telling.ts';

// The acts of the book as short words for the story. Amounts are given as a person types them.

export function place(name: string, note: string): Doing {
  return ({ write, places }) => {
    const act = write({ kind: 'addPlace', name, note });
    if (act.kind === 'addPlace') places.call(name, act.placeId);
  };
}

export function shelf(inPlace: string, name: string, positions: number): Doing {
  return ({ write, places, shelves }) => {
    const act = write({ kind: 'addShelf', placeId: places.of(inPlace), name, positions });
    if (act.kind === 'addShelf') shelves.call(name, act.shelfId);
  };
}

interface Made {
  readonly as: Silhouette;
  readonly holds: string;
  readonly closed: Closure;
  readonly of?: Material;
  readonly mouth?: Mouth;
  /** The name written on it; most vessels have none. */
  readonly named?: string;
  readonly note?: string;
  readonly at?: readonly [shelf: string, position: number];
}

const WIDE: readonly Silhouette[] = ['jar', 'crock', 'bucket'];

export function vessel(handle: string, made: Made): Doing {
  return ({ write, vessels, shelves }) => {
    const { at } = made;
    const act = write(
      {
        kind: 'addVessel',
        ...describedAs(made),
        ...{ shelfId: at === undefined ? null : shelves.of(at[0]), position: at?.[1] ?? null },
      },
      { capacityUl: made.holds },
    );
    if (act.kind === 'addVessel') vessels.call(handle, act.vesselId);
  };
}

const MATERIAL_OF: Readonly<Record<Silhouette, Material>> = {
  jar: 'glass',
  crock: 'stoneware',
  bucket: 'foodPlastic',
  flask: 'glass',
  demijohn: 'glass',
  bottle: 'glass',
  cask: 'wood',
};

export function describePlace(name: string, note: string): Doing {
  return ({ write, places }) => {
    write({ kind: 'editPlace', placeId: places.of(name), name, note });
  };
}

export function describeShelf(name: string, positions: number): Doing {
  return ({ write, shelves }) => {
    write({ kind: 'editShelf', shelfId: shelves.of(name), name, positions });
  };
}

/** Described anew in every respect: the whole of it is given. */
export function describeVessel(handle: string, made: Omit<Made, 'at'>): Doing {
  return ({ write, vessels }) => {
    write(
      { kind: 'editVessel', vesselId: vessels.of(handle), ...describedAs(made) },
      { capacityUl: made.holds },
    );
  };
}

function describedAs(made: Omit<Made, 'at'>) {
  return {
    ...{ name: made.named ?? '', silhouette: made.as, capacityUl: ul(made.holds) },
    mouth: made.mouth ?? (WIDE.includes(made.as) ? ('wide' as const) : ('narrow' as const)),
    material: made.of ?? MATERIAL_OF[made.as],
    ...{ closure: made.closed, note: made.note ?? '' },
  };
}

export function move(handle: string, shelfName: string, position: number): Doing {
  return ({ write, vessels, shelves }) => {
    write({ kind: 'moveVessel', vesselId: vessels.of(handle), shelfId: shelves.of(shelfName), position });
  };
}

export function retire(handle: string, reason: string): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'retireVessel', vesselId: vessels.of(handle), reason });
  };
}

/** Washed or rinsed and left to rest until a day. */
export function clean(handle: string, how: CleanedHow, restsUntil: string, note: string): Doing {
  return ({ write, vessels }) => {
    const restUntilMs = momentMs(restsUntil);
    write({ kind: 'cleanVessel', vesselId: vessels.of(handle), how, restUntilMs, note });
  };
}

/** Out of the house with somebody. */
export function lend(handle: string, holder: string, note: string): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'lendVessel', vesselId: vessels.of(handle), holder, note });
  };
}

export function close(handle: string, closure: Closure): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'changeClosure', vesselId: vessels.of(handle), closure });
  };
}

interface Cultured {
  readonly sort: CultureSort;
  readonly source: string;
  readonly note?: string;
  readonly dividedFrom?: string;
  readonly standing?: readonly [vessel: string, volume: string];
}

export function culture(name: string, { sort, source, note, dividedFrom, standing }: Cultured): Doing {
  return ({ write, vessels, cultures, batches }) => {
    const act = write(
      {
        ...{ kind: 'addCulture', name, sort, source, note: note ?? '' },
        parentCultureId: dividedFrom === undefined ? null : cultures.of(dividedFrom),
        standing:
          standing === undefined ? null : { vesselId: vessels.of(standing[0]), volumeUl: ul(standing[1]) },
      },
      standing === undefined ? {} : { volumeUl: standing[1] },
    );
    if (act.kind !== 'addCulture') return;
    cultures.call(name, act.cultureId);
    if (act.standing !== null) batches.call(name, act.standing.batchId);
  };
}

export function describeCulture(name: string, sort: CultureSort, source: string, note: string): Doing {
  return ({ write, cultures }) => {
    write({ kind: 'editCulture', cultureId: cultures.of(name), name, sort, source, note });
  };
}

export function feed(name: string, text: string): Doing {
  return ({ write, cultures }) => {
    write({ kind: 'feedCulture', cultureId: cultures.of(name), text });
  };
}

/** How a reading was taken, where it differs from a hydrometer, a meter set that day, and a burette. */
interface Taken {
  readonly gravityBy?: ReadingValues['gravityInstrument'];
  readonly phBy?: ReadingValues['phMethod'];
  readonly acidityBy?: ReadingValues['acidityMethod'];
  readonly acidityWithin?: number;
  /** Titrant of each replicate, mL of 0.1 N, for 2 mL of vinegar. */
  readonly titrantMl?: readonly number[];
  readonly taste?: string;
}

const NOTHING_READ: ReadingValues = {
  ...{ gravitySg: null, gravityInstrument: null, gravityCalibrationCelsius: null, temperatureCelsius: null },
  ...{ ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null, acidityMethod: null },
  ...{ acidityUncertainty: null, volumeUl: null, freeSulfiteMgPerL: null, alcoholPercentVolume: null },
  taste: '',
};

function read(line: string, taken: Taken): ReadingValues {
  let values: ReadingValues = { ...NOTHING_READ, taste: taken.taste ?? '' };
  for (const understood of line === '' ? [] : readings(line)) {
    switch (understood.kind) {
      case 'gravity':
        values = {
          ...values,
          gravitySg: understood.value,
          gravityInstrument: taken.gravityBy ?? 'hydrometer',
          gravityCalibrationCelsius: 20,
        };
        break;
      case 'temperature':
        values = { ...values, temperatureCelsius: understood.value };
        break;
      case 'pH':
        values = { ...values, ph: understood.value, phMethod: taken.phBy ?? 'meterToday' };
        break;
      case 'acidity':
        values = {
          ...values,
          acidityGramsPer100Ml: understood.value,
          acidityAs: understood.acid ?? 'acetic',
          acidityMethod: taken.acidityBy ?? 'burette',
          acidityUncertainty: taken.acidityWithin ?? null,
          ...(taken.titrantMl === undefined ? {} : { detail: titrated(taken.titrantMl) }),
        };
        break;
      case 'volume':
        values = { ...values, volumeUl: understood.volumeUl };
        break;
      case 'freeSulfite':
        values = { ...values, freeSulfiteMgPerL: understood.value };
        break;
      case 'alcohol':
        values = { ...values, alcoholPercentVolume: understood.value };
        break;
      case 'mass':
      case 'salt':
        throw new Error(`a reading does not hold ${understood.kind}`);
    }
  }
  return values;
}

function titrated(titrantMl: readonly number[]): ReadingDetail {
  return {
    titration: {
      ...{ sampleMl: 2, titrantMl: [...titrantMl], blankMl: 0, normality: 0.1 },
      ...{ baseCheckedAtMs: null, baseBoughtAtMs: null, baseNewlyOpened: true },
      ...{ endPoint: 'colour', darkSample: false, fizzySample: false, degassed: null },
    },
    ...{ acidityBasis: 'w/v', fixedAcidGramsPer100Ml: null, gravityUncertainty: null, phUncertainty: null },
    ...{ phSampleFrom: null, phEquilibriumShown: null, alcoholMethod: null, alcoholUncertainty: null },
    ...{ totalSulfiteMgPerL: null, saltPercent: null },
  };
}

const typedLine = (line: string): Record<string, string> => (line === '' ? {} : { quick: line });

export function reading(handle: string, line: string, taken: Taken = {}): Doing {
  return ({ write, vessels }) => {
    write(
      { kind: 'recordReading', vesselId: vessels.of(handle), values: read(line, taken) },
      typedLine(line),
    );
  };
}

export function taste(handle: string, words: string): Doing {
  return reading(handle, '', { taste: words });
}

type Amount = readonly [name: string, amount: string];

interface Started extends Taken {
  readonly as: FermentKind;
  readonly holds: string;
  readonly stage?: FilledStage;
  readonly measured?: string;
  readonly from?: readonly Amount[];
  readonly note?: string;
}

const ingredient = ([name, amountTyped]: Amount): Ingredient => ({
  name,
  amountTyped,
  massUg: ug(amountTyped),
});

export function start(name: string, handle: string, begun: Started): Doing {
  return ({ write, vessels, batches }) => {
    const { measured = '' } = begun;
    const values = measured === '' && begun.taste === undefined ? null : read(measured, begun);
    const act = write(
      {
        ...{ kind: 'startBatch', name, ferment: begun.as, vesselId: vessels.of(handle) },
        ...{ volumeUl: ul(begun.holds), stage: begun.stage ?? 'waiting' },
        ...{ ingredients: (begun.from ?? []).map(ingredient), measured: values, note: begun.note ?? '' },
      },
      { volumeUl: begun.holds, ...typedLine(measured) },
    );
    if (act.kind === 'startBatch') batches.call(name, act.batchId);
  };
}

export function describeBatch(name: string, ferment: FermentKind, note: string): Doing {
  return ({ write, batches }) => {
    write({ kind: 'editBatch', batchId: batches.of(name), name, ferment, note });
  };
}

type Addition = Extract<ActDraft, { kind: 'addTo' }>['what'];

/** `rise` is how far the level rises; a liquid's own amount is its rise. */
export function add(handle: string, what: Addition, name: string, amount: string, rise = ''): Doing {
  return ({ write, vessels }) => {
    write(
      {
        ...{ kind: 'addTo', vesselId: vessels.of(handle), what, volumeUl: ul(rise) },
        ingredient: ingredient([name, amount]),
      },
      rise === '' ? { amount } : { amount, volumeUl: rise },
    );
  };
}

export function pour(handle: string, what: Addition, name: string, amount: string): Doing {
  return add(handle, what, name, amount, amount);
}

/** Pitches a yeast kept as a culture. */
export function pitchCulture(handle: string, name: string): Doing {
  return ({ write, vessels, cultures }) => {
    const cultureId = cultures.of(name);
    write({ kind: 'pitchYeast', vesselId: vessels.of(handle), cultureId, yeast: '', massUg: null });
  };
}

export function pitchPacket(handle: string, yeast: string, mass: string): Doing {
  return ({ write, vessels }) => {
    write(
      { kind: 'pitchYeast', vesselId: vessels.of(handle), cultureId: null, yeast, massUg: ug(mass) },
      { massUg: mass },
    );
  };
}

/** What readings found is written into the book before liquid moves on, where living work alone explains it. */
function settleBook({ write, findings }: ToldCellar, vesselId: VesselId): void {
  const settled = new Set<string>();
  for (;;) {
    const found = findings(vesselId).find(
      ({ doubt, steps, readingId }) =>
        doubt === null && steps.length > 0 && !settled.has(JSON.stringify([readingId, steps])),
    );
    if (found === undefined) return;
    const { readingId, steps } = found;
    settled.add(JSON.stringify([readingId, steps]));
    write({ kind: 'reconcile', vesselId, readingId, steps: [...steps], note: '' });
  }
}

/** An evening with the book: whatever the readings have found by then. */
export const settleAll: Doing = (cellar) => {
  for (const vesselId of cellar.vessels.all()) settleBook(cellar, vesselId);
};

interface Racked {
  readonly lees?: string;
  readonly as?: readonly [name: string, ferment: FermentKind];
  readonly stage?: FilledStage;
}

export function rack(from: string, to: string, volume: string, { lees = '', as, stage }: Racked = {}): Doing {
  return (cellar) => {
    const { write, vessels, batches } = cellar;
    for (const handle of [from, to]) settleBook(cellar, vessels.of(handle));
    const act = write(
      {
        ...{ kind: 'transfer', fromVesselId: vessels.of(from), toVesselId: vessels.of(to) },
        ...{ volumeUl: ul(volume), leesUl: ul(lees) },
        newBatch: as === undefined ? null : { name: as[0], ferment: as[1] },
        toStage: stage ?? null,
      },
      lees === '' ? { volumeUl: volume } : { volumeUl: volume, leesUl: lees },
    );
    if (act.kind === 'transfer' && act.newBatch !== null)
      batches.call(act.newBatch.name, act.newBatch.batchId);
  };
}

/** Puts a culture to work, with liquid from the vessel it is kept in. */
export function seed(handle: string, cultureName: string, fromHandle: string, volume: string): Doing {
  return (cellar) => {
    const { write, vessels, cultures } = cellar;
    for (const each of [handle, fromHandle]) settleBook(cellar, vessels.of(each));
    write(
      {
        ...{ kind: 'seed', vesselId: vessels.of(handle), cultureId: cultures.of(cultureName) },
        ...{ fromVesselId: vessels.of(fromHandle), volumeUl: ul(volume), what: '', toStage: 'vinegar' },
      },
      { volumeUl: volume },
    );
  };
}

export function seedBought(handle: string, what: string, volume: string): Doing {
  return ({ write, vessels }) => {
    write(
      {
        ...{ kind: 'seed', vesselId: vessels.of(handle), cultureId: null, fromVesselId: null },
        ...{ volumeUl: ul(volume), what, toStage: 'vinegar' },
      },
      { volumeUl: volume },
    );
  };
}

/** What the keeper knows of a liquid beside its readings. */
export function know(handle: string, facts: ToldFacts): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'tellFacts', vesselId: vessels.of(handle), facts });
  };
}

export function heat(handle: string, reachedCelsius: number, minutes: number, note = ''): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'heat', vesselId: vessels.of(handle), reachedCelsius, minutes, note });
  };
}

/** Goes against a verdict; the reason is kept and the verdict stays. */
export function overrule(handle: string, use: string, reason: string): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'overrule', vesselId: vessels.of(handle), use, reason });
  };
}

export function goOn(handle: string, stage: FilledStage, reason = ''): Doing {
  return (cellar) => {
    const { write, vessels } = cellar;
    settleBook(cellar, vessels.of(handle));
    write({ kind: 'changeStage', vesselId: vessels.of(handle), stage, reason });
  };
}

export function draw(handle: string, volume: string, purpose: string): Doing {
  return ({ write, vessels }) => {
    write(
      { kind: 'drawOff', vesselId: vessels.of(handle), volumeUl: ul(volume), purpose },
      { volumeUl: volume },
    );
  };
}

export function bottle(handle: string, bottles: number, size: string, loss = '', note = ''): Doing {
  return (cellar) => {
    const { write, vessels } = cellar;
    settleBook(cellar, vessels.of(handle));
    const act: ActDraft = {
      ...{ kind: 'bottle', vesselId: vessels.of(handle), bottles, bottleUl: ul(size) },
      ...{ lossUl: ul(loss), note },
    };
    write(act, loss === '' ? { bottleUl: size } : { bottleUl: size, lossUl: loss });
  };
}

export function throwOut(handle: string, volume: string, reason: string): Doing {
  return ({ write, vessels }) => {
    write(
      { kind: 'discard', vesselId: vessels.of(handle), volumeUl: ul(volume), reason },
      { volumeUl: volume },
    );
  };
}

type Cause = Extract<ActDraft, { kind: 'settleVolume' }>['cause'];

export function settle(handle: string, volume: string, cause: Cause): Doing {
  return ({ write, vessels }) => {
    write(
      { kind: 'settleVolume', vesselId: vessels.of(handle), volumeUl: ul(volume), cause },
      { volumeUl: volume },
    );
  };
}

export function noteVessel(handle: string, text: string): Doing {
  return ({ write, vessels }) => {
    write({ kind: 'note', about: { kind: 'vessel', vesselId: vessels.of(handle) }, text });
  };
}

export function noteBatch(name: string, text: string): Doing {
  return ({ write, batches }) => {
    write({ kind: 'note', about: { kind: 'batch', batchId: batches.of(name) }, text });
  };
}

export function noteCulture(name: string, text: string): Doing {
  return ({ write, cultures }) => {
    write({ kind: 'note', about: { kind: 'culture', cultureId: cultures.of(name) }, text });
  };
}

/** A picture of a batch. */
export function photo(name: string, drawn: Drawn, caption: string): Doing {
  return ({ show, batches }) => {
    show(drawn, { kind: 'batch', batchId: batches.of(name) }, caption);
  };
}
