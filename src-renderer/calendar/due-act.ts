import type { ActRequest } from '../acts/act-request.ts';
import type { DueLine } from '../paper/due-lines.ts';

/** The form that does what is due, with the word on its button; null where nothing is known to do it in. */
export function actForDue({
  check,
  row,
  culture,
}: DueLine): { readonly label: string; readonly request: ActRequest } | null {
  if (row === null)
    return culture === null
      ? null
      : { label: 'Feed…', request: { kind: 'feedCulture', cultureId: culture.cultureId } };
  const { vesselId } = row;
  switch (check.act) {
    case 'gravity':
    case 'ph':
      return { label: 'Record…', request: { kind: 'reading', vesselId } };
    case 'acidity':
      return { label: 'Titrate…', request: { kind: 'titrate', vesselId } };
    case 'taste':
      return { label: 'Taste…', request: { kind: 'taste', about: { kind: 'vessel', vesselId } } };
    case 'look':
      return { label: 'Look…', request: { kind: 'look', vesselId } };
    case 'rack':
      return { label: 'Transfer…', request: { kind: 'transfer', fromVesselId: vesselId } };
    case 'seed':
      return { label: 'Seed…', request: { kind: 'seed', vesselId } };
    case 'bottle':
      return { label: 'Bottle…', request: { kind: 'bottle', vesselId } };
    case 'pitch':
      return { label: 'Pitch yeast…', request: { kind: 'pitchYeast', vesselId } };
    case 'feed':
      return null;
  }
}
