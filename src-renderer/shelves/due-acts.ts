import type { DueCheck, ShelfRow } from '#core/contract/shelves.ts';
import type { CultureId } from '#core/ledger/ids.ts';
import type { ActRequest } from '../acts/act-request.ts';

/** A button beside what is due: the form that does it. */
export interface DueAnswer {
  readonly label: string;
  readonly request: ActRequest;
}

/**
 * The form that does what is due, so that it need not be looked for among all acts. Nothing for a feeding of a culture that
 * is not known yet.
 */
export function dueAnswer(
  { vesselId }: Pick<ShelfRow, 'vesselId'>,
  act: DueCheck['act'],
  cultureId: CultureId | null = null,
): DueAnswer | null {
  switch (act) {
    case 'look':
      return { label: 'Look…', request: { kind: 'look', vesselId } };
    case 'acidity':
      return { label: 'Titrate…', request: { kind: 'titrate', vesselId } };
    case 'gravity':
    case 'ph':
      return { label: 'Measure…', request: { kind: 'reading', vesselId } };
    case 'pitch':
      return { label: 'Pitch…', request: { kind: 'pitchYeast', vesselId } };
    case 'seed':
      return { label: 'Seed…', request: { kind: 'seed', vesselId } };
    case 'rack':
      return { label: 'Rack…', request: { kind: 'transfer', fromVesselId: vesselId } };
    case 'taste':
      return { label: 'Taste it…', request: { kind: 'taste', about: { kind: 'vessel', vesselId } } };
    case 'bottle':
      return { label: 'Fill bottles…', request: { kind: 'bottle', vesselId } };
    case 'feed':
      return cultureId === null ? null : { label: 'Give food…', request: { kind: 'feedCulture', cultureId } };
  }
}
