import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ReadingRow, VesselDetail } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { Reckoning, VesselValue } from '#core/reckonings/reckoning.ts';
import { asItReads } from '../corrections/as-it-reads.ts';
import { exactVolumeText, trimmed } from '../words/quantity-words.ts';
import { celsiusText, sgText } from './fill-text.ts';
import { sealingFills } from './sealing-fills.ts';
import type { Staleness, VesselFill } from './vessel-fill.ts';

export interface VesselKnown {
  readonly detail: VesselDetail;
  /** The newest time something was put into what stands in it; null when nothing was since it was filled. */
  readonly changedAtMs: number | null;
}

/** What each value of a vessel is now, as text for a field; a value the book does not have is absent. */
export function fillsOfVessel(
  known: VesselKnown,
  house: HouseUnits,
): ReadonlyMap<VesselValue | 'originalGravity', VesselFill> {
  const { detail } = known;
  const { row, foresight } = detail;
  const fills = new Map<VesselValue | 'originalGravity', VesselFill>();
  const lay = (value: VesselValue | 'originalGravity', fill: VesselFill | null): void => {
    if (fill !== null) fills.set(value, fill);
  };
  const read = (has: (reading: ReadingRow) => number | null, say: (value: number) => string) => {
    const reading = newestWith(detail.readings, has);
    const value = reading === null ? null : has(reading);
    if (reading === null || value === null) return null;
    return { reading, fill: { text: say(value), atMs: reading.atMs, stale: staleness(reading.atMs, known) } };
  };

  if (row.volumeUl > 0) {
    const book = { atMs: null, stale: null } as const;
    lay('volumeUl', { text: exactVolumeText(row.volumeUl, house), origin: 'book', ...book });
    const headspaceUl = row.capacityUl - row.volumeUl;
    if (headspaceUl > 0) {
      lay('headspaceUl', { text: exactVolumeText(headspaceUl, house), origin: 'capacity', ...book });
    }
  }
  const gravity = read(({ gravityCorrectedSg, gravitySg }) => gravityCorrectedSg ?? gravitySg, sgText);
  if (gravity) {
    const isCorrected =
      gravity.reading.gravityCorrectedSg !== null &&
      gravity.reading.gravityCorrectedSg !== gravity.reading.gravitySg;
    lay('gravity', { ...gravity.fill, origin: isCorrected ? 'corrected' : 'read' });
  }
  const acidity = read(
    ({ acidityAsAceticGramsPer100Ml }) => acidityAsAceticGramsPer100Ml,
    (grams) => `${trimmed(grams, 3)} % as acetic`,
  );
  if (acidity) {
    const isCounted = acidity.reading.acidityAs !== 'acetic';
    lay('acidity', { ...acidity.fill, origin: isCounted ? 'countedAsAcetic' : 'read' });
  }
  const plain = (value: VesselValue, found: ReturnType<typeof read>): void => {
    if (found) lay(value, { ...found.fill, origin: 'read' });
  };
  plain(
    'ph',
    read(
      ({ ph }) => ph,
      (ph) => trimmed(ph, 3),
    ),
  );
  plain(
    'temperature',
    read(
      ({ temperatureCelsius }) => temperatureCelsius,
      (celsius) => celsiusText(celsius, house),
    ),
  );
  plain(
    'freeSulfite',
    read(
      ({ freeSulfiteMgPerL }) => freeSulfiteMgPerL,
      (mg) => `${trimmed(mg, 1)} mg/L`,
    ),
  );
  plain(
    'alcohol',
    read(
      ({ alcoholPercentVolume }) => alcoholPercentVolume,
      (percent) => `${trimmed(percent, 2)} % vol`,
    ),
  );
  const worked = foresight?.alcoholNowPercent ?? null;
  if (!fills.has('alcohol') && worked !== null) {
    const { atMs, stale } = fills.get('gravity') ?? { atMs: null, stale: null };
    lay('alcohol', { text: `${trimmed(worked, 1)} % vol`, origin: 'workedOut', atMs, stale });
  }
  if (foresight !== null) {
    lay('originalGravity', {
      text: sgText(foresight.originalGravitySg),
      origin: 'must',
      atMs: foresight.measuredAtMs,
      stale: null,
    });
  }
  return fills;
}

/** The fills of a reckoning's fields, by field name, with the error and the method of the readings they come from. */
export function fillsFor(
  reckoning: Reckoning,
  known: VesselKnown,
  rules: HouseRules,
  nowMs: number,
): Readonly<Record<string, VesselFill>> {
  const fills = fillsOfVessel(known, rules);
  const found: Record<string, VesselFill> =
    reckoning.id === 'sealedBottle'
      ? sealingFills(known.detail.readings, rules, nowMs, (atMs) => staleness(atMs, known))
      : {};
  for (const field of reckoning.fields) {
    if (field.kind !== 'quantity') continue;
    const value = field.name === 'originalGravity' ? 'originalGravity' : field.fromVessel;
    const fill = value === null ? undefined : fills.get(value);
    if (value === null || fill === undefined) continue;
    found[field.name] = fill;
    for (const [name, text] of besides(reckoning, field.name, value, known.detail)) {
      found[name] ??= { ...fill, text, origin: 'read' };
    }
  }
  return found;
}

/** The error of a reading and how it was measured, for the fields of a reckoning that ask for them. */
function besides(
  reckoning: Reckoning,
  fieldName: string,
  value: VesselValue | 'originalGravity',
  { readings }: VesselDetail,
): readonly (readonly [name: string, text: string])[] {
  const found: (readonly [string, string])[] = [];
  const measured = MEASURED[value];
  if (measured === undefined) return found;
  const reading = newestWith(readings, measured.value);
  if (reading === null) return found;
  const uncertainty = measured.uncertainty(reading);
  const names = [fieldName, value].map((name) => `${name}Uncertainty`.toLowerCase());
  const field = reckoning.fields.find(
    ({ name, kind }) => kind === 'number' && names.includes(name.toLowerCase()),
  );
  if (field !== undefined && uncertainty !== null) found.push([field.name, trimmed(uncertainty, 4)]);
  const method = measured.method(reading);
  const choice = reckoning.fields.find(
    (one) => one.kind === 'choice' && method !== null && one.choices.includes(method),
  );
  if (method !== null && choice !== undefined) found.push([choice.name, method]);
  return found;
}

interface Measured {
  readonly value: (reading: ReadingRow) => number | null;
  readonly uncertainty: (reading: ReadingRow) => number | null;
  readonly method: (reading: ReadingRow) => string | null;
}

const ACIDITY_METHODS: Readonly<Record<string, string>> = {
  syringeKit: 'taSyringeKit',
  burette: 'taBurette',
  laboratory: 'taLaboratory',
};
const GRAVITY_METHODS: Readonly<Record<string, string>> = {
  hydrometer: 'hydrometer',
  refractometer: 'refractometer',
  laboratory: 'hydrometerNarrow',
};
const PH_METHODS: Readonly<Record<string, string>> = {
  meterToday: 'phMeterTwoBuffersToday',
  meterThisWeek: 'phMeterWithinAWeek',
  narrowStrip: 'phStripNarrow',
  wideStrip: 'phStripWide',
};
const MEASURED: Readonly<Partial<Record<VesselValue | 'originalGravity', Measured>>> = {
  gravity: {
    value: (reading) => reading.gravityCorrectedSg ?? reading.gravitySg,
    // The error of a refractometer is kept in °Bx, and these fields ask for SG.
    uncertainty: (reading) =>
      reading.gravityInstrument === 'refractometer' ? null : reading.gravityUncertainty,
    method: (reading) => GRAVITY_METHODS[reading.gravityInstrument ?? ''] ?? null,
  },
  acidity: {
    value: (reading) => reading.acidityAsAceticGramsPer100Ml,
    uncertainty: (reading) => (reading.acidityAs === 'acetic' ? reading.acidityUncertainty : null),
    method: (reading) => ACIDITY_METHODS[reading.acidityMethod ?? ''] ?? null,
  },
  ph: {
    value: (reading) => reading.ph,
    uncertainty: (reading) => reading.phUncertainty,
    method: (reading) => PH_METHODS[reading.phMethod ?? ''] ?? null,
  },
  alcohol: {
    value: (reading) => reading.alcoholPercentVolume,
    uncertainty: (reading) => reading.alcoholUncertainty,
    method: () => null,
  },
};

function newestWith(
  readings: readonly ReadingRow[],
  has: (reading: ReadingRow) => number | null,
): ReadingRow | null {
  let found: ReadingRow | null = null;
  for (const reading of readings) {
    if (has(reading) !== null && (found === null || reading.atMs >= found.atMs)) found = reading;
  }
  return found;
}

/** Whether a reading still describes the vessel: something went in since, or a rule finds it too old. */
function staleness(atMs: number, { detail, changedAtMs }: VesselKnown): Staleness | null {
  const findings = detail.verdicts.flatMap((verdict) => verdict.findings);
  const changes = findings
    .filter(({ ruleId }) => ruleId === 'MEAS-03')
    .map(({ numbers }) => numbers['changedAtMs'])
    .filter((at) => typeof at === 'number');
  const changed = Math.max(changedAtMs ?? -Infinity, ...changes);
  // At the very moment of a change the order is not known, so the reading counts as taken before it.
  if (changed >= atMs) return { rule: 'MEAS-03', changedAtMs: changed };
  const aged = findings.find(
    ({ ruleId, verdict, numbers }) =>
      ruleId === 'MEAS-04' && verdict !== 'ok' && verdict !== 'caution' && numbers['takenAtMs'] === atMs,
  );
  if (aged === undefined) return null;
  const limit = aged.numbers['limitMs'];
  return { rule: 'MEAS-04', limitMs: typeof limit === 'number' ? limit : null };
}

/** The newest time something went into what stands in a vessel, from the lines of the book that speak of it. */
export function changedAt(entries: readonly EntryRow[], vesselId: VesselId): number | null {
  let newest: number | null = null;
  for (const { act, happenedAtMs, struck } of entries.map(asItReads)) {
    const changes =
      act.kind === 'addTo' ||
      act.kind === 'seed' ||
      act.kind === 'heat' ||
      (act.kind === 'transfer' && act.toVesselId === vesselId);
    if (struck || !changes) continue;
    if ('vesselId' in act && act.vesselId !== vesselId) continue;
    if (newest === null || happenedAtMs > newest) newest = happenedAtMs;
  }
  return newest;
}
