const KEPT = 'undercroft.lastQuantity';

/** Which quantities the pantry's reading form asks for, one at a time, by field. */
export const PANTRY_QUANTITIES = [
  { field: 'gravitySg', kind: 'gravity', label: 'Gravity', units: ['Bx', 'SG'] },
  { field: 'acidityGramsPer100Ml', kind: 'acidity', label: 'Acidity', units: ['%', 'g/L'] },
  { field: 'ph', kind: 'pH', label: 'pH', units: [] },
  { field: 'temperatureCelsius', kind: 'temperature', label: 'Temperature', units: ['°C', '°F'] },
  { field: 'volumeUl', kind: 'volume', label: 'Level', units: ['L', 'ml', 'qt', 'gal'] },
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
