import type { HouseRules } from '#core/contract/house-rules.ts';

const KEPT = 'undercroft.lastQuantity';

/** Which quantities the pantry's reading form asks for, one at a time, by field. */
export const PANTRY_QUANTITIES = [
  { field: 'gravitySg', kind: 'gravity', label: 'Gravity', units: ['Bx', 'SG'], hint: '1.048 or 12 Bx' },
  {
    field: 'acidityGramsPer100Ml',
    kind: 'acidity',
    label: 'Acidity',
    units: ['%', 'g/L'],
    hint: '5.2 % or 52 g/L',
  },
  { field: 'ph', kind: 'pH', label: 'pH', units: [], hint: '3.41' },
  {
    field: 'temperatureCelsius',
    kind: 'temperature',
    label: 'Temperature',
    units: ['°C', '°F'],
    hint: 'of the sample',
  },
  { field: 'volumeUl', kind: 'volume', label: 'Level', units: ['L', 'ml', 'qt', 'gal'], hint: '4.5 L' },
] as const;
export type PantryField = (typeof PANTRY_QUANTITIES)[number]['field'];

/** The quantity last read in the pantry, so that the next reading begins with it; gravity at first. */
export function lastQuantity(): PantryField {
  try {
    const kept = localStorage.getItem(KEPT);
    return PANTRY_QUANTITIES.find(({ field }) => field === kept)?.field ?? 'gravitySg';
  } catch {
    return 'gravitySg';
  }
}

export function rememberQuantity(field: PantryField): void {
  try {
    localStorage.setItem(KEPT, field);
  } catch {
    // Without storage the form begins with gravity again, which costs one press.
  }
}

/** The volume keys beside the pantry's digits, those of the house first. */
export function padVolumes({ volume }: Pick<HouseRules, 'volume'>): readonly string[] {
  return volume === 'us' ? ['qt', 'gal', 'fl oz', 'L'] : ['L', 'ml'];
}
