import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { CarriesOut, Reckoned, Reckoning, ReckoningValues } from '#core/reckonings/reckoning.ts';
import { buildSeed } from '../acts/build-batches.ts';
import type { FormReader } from '../acts/form-reader.ts';

/** What goes in when an addition is carried out, and what it is called in the book. */
export const ADDED: Readonly<
  Record<Exclude<CarriesOut, 'seed'>, { readonly what: AddedWhat; readonly name: string }>
> = {
  addWater: { what: 'water', name: 'water' },
  addSugar: { what: 'sugar', name: 'sugar' },
  addHoney: { what: 'honey', name: 'honey' },
  addSulfite: { what: 'sulfite', name: 'sulfite' },
  addSalt: { what: 'salt', name: 'salt' },
};
type AddedWhat = Extract<ActDraft, { kind: 'addTo' }>['what'];

/** The act that puts into a vessel what was worked out. `amount` and `volumeUl` are the fields of the small form. */
export function buildCarryOut(
  read: FormReader,
  given: { readonly carries: CarriesOut; readonly vesselId: VesselId; readonly byVolume: boolean },
): ActDraft {
  const { carries, vesselId, byVolume } = given;
  if (carries === 'seed') return buildSeed(read);
  const { what, name } = ADDED[carries];
  const amountTyped = read.line('amount', 60);
  const named = read.line('ingredient');
  const massUg = byVolume ? null : (read.quantity('mass', 'amount')?.massUg ?? null);
  if (!byVolume && massUg === null && amountTyped === '') {
    read.problem('amount', 'Say how much goes in, for instance 500 g.');
  }
  if (massUg === 0) read.problem('amount', 'This has to be more than nothing.');
  const volumeUl = byVolume ? read.volume('amount') : read.volumeOrNone('volumeUl');
  read.when();
  return {
    ...{ kind: 'addTo', vesselId, what, volumeUl },
    ingredient: { name: named === '' ? name : named, amountTyped, massUg },
  };
}

/** By how much the level rises, µL, where the reckoning says how much there will be; null where it does not. */
export function riseUl(reckoning: Reckoning, reckoned: Reckoned, values: ReckoningValues): number | null {
  const after = reckoned.answers.find(({ name, unit }) => name === 'volumeAfter' && unit === 'volume');
  const field = reckoning.fields.find((one) => one.kind === 'quantity' && one.fromVessel === 'volumeUl');
  const before = field === undefined ? undefined : values[field.name];
  if (after === undefined || typeof before !== 'number') return null;
  const rise = Math.round(after.value - before);
  return rise > 0 ? rise : null;
}
