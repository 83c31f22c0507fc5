import type { Act, ActDraft } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { draftOf } from '../corrections/draft-of.ts';
import { NOTHING_SAID } from './titration-work.ts';

/** A line of the book that a form tells anew, instead of writing an act of its own. */
export interface Correcting {
  readonly entryId: EntryId;
  /** The line as it now reads, in words. */
  readonly says: string;
  readonly act: Act;
  readonly happenedAtMs: number;
  /** What the fields of the form begin with. */
  readonly fields: Readonly<Record<string, string>>;
  /** Names of the vessels it speaks of, for those that are no longer on the shelf. */
  readonly names: Readonly<Record<string, string>>;
  /** It was told anew in this correction already, so nothing more has to change. */
  readonly mayStay: boolean;
  /** Takes what the line should have said. A time of null leaves it as it was. */
  readonly taken: (told: Told) => void;
}

export interface Told {
  readonly act: ActDraft;
  readonly happenedAtMs: number | null;
  /** Names by id of vessels that were chosen in the form. */
  readonly names: Readonly<Record<string, string>>;
}

/** The field in which a form asks for the vessel that a line is about, where its own dialog takes that for given. */
export const CORRECTED_VESSEL = 'correctedVesselId';

/** What the line should have said: as the form has it, in the vessel chosen, with what no form asks kept as it was. */
export function toldAnew(
  { act: was, fields: before }: Correcting,
  built: ActDraft,
  fields: Readonly<Record<string, string>>,
): ActDraft {
  const vesselId = fields[CORRECTED_VESSEL] as VesselId | undefined;
  const moved = vesselId === undefined || vesselId === '' ? built : inVessel(built, vesselId);
  return keepUntold(was, moved, (field) => (fields[field] ?? '') === (before[field] ?? ''));
}

/** The vessel that an act is about, where it is about one alone. */
export function vesselOf(act: Act | ActDraft): VesselId | null {
  if ('vesselId' in act) return act.vesselId;
  if ('about' in act && act.about.kind === 'vessel') return act.about.vesselId;
  return null;
}

function inVessel(act: ActDraft, vesselId: VesselId): ActDraft {
  if ('vesselId' in act) return { ...act, vesselId };
  if ('about' in act && act.about.kind === 'vessel') return { ...act, about: { ...act.about, vesselId } };
  return act;
}

/** Values that stand in the line beside what its form asks: how it was found, what it repeats, in which stage it began. */
function keepUntold(was: Act, now: ActDraft, isUnchanged: (field: string) => boolean): ActDraft {
  const old = draftOf(was);
  if (old === null || old.kind !== now.kind) return now;
  if (now.kind === 'startBatch' && old.kind === 'startBatch') {
    return {
      ...now,
      ...(old.repeatsBatchId == null ? {} : { repeatsBatchId: old.repeatsBatchId }),
      stage: now.ferment === old.ferment ? old.stage : now.stage,
      measured: calibratedAs(old.measured, now.measured, isUnchanged('gravityInstrument')),
    };
  }
  if (now.kind === 'recordReading' && old.kind === 'recordReading') {
    const calibrated = calibratedAs(old.values, now.values, isUnchanged('gravityInstrument')) ?? now.values;
    return { ...now, values: titratedAs(old.values, calibrated) };
  }
  return now;
}

type Values = Extract<ActDraft, { kind: 'recordReading' }>['values'];

/** The hydrometer of that day, not the one of today. */
function calibratedAs(old: Values | null, now: Values | null, sameInstrument: boolean): Values | null {
  if (now === null || now.gravitySg === null || old === null || old.gravitySg === null || !sameInstrument) {
    return now;
  }
  return { ...now, gravityCalibrationCelsius: old.gravityCalibrationCelsius };
}

/** A titration stays tied to the acidity that was worked out from it, as long as that is the same. */
function titratedAs(old: Values, now: Values): Values {
  const titration = old.detail?.titration ?? null;
  const isSame = now.acidityGramsPer100Ml === old.acidityGramsPer100Ml && now.acidityAs === old.acidityAs;
  if (titration === null || !isSame || (now.detail?.titration ?? null) !== null || old.detail == null)
    return now;
  return { ...now, detail: { ...(now.detail ?? NOTHING_SAID), titration } };
}
