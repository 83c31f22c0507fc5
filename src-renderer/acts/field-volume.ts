import { cellar } from '../cellar/cellar-state.svelte.ts';
import { readQuantityField } from './read-quantity.ts';
import type { TypedForm } from './typed-form.ts';

/** The volume a field holds so far, µL; 0 while it is empty or not understood. */
export function fieldVolumeUl(form: Pick<TypedForm, 'fields' | 'kept'>, field: string): number {
  const text = form.fields[field] ?? '';
  const keptText = form.kept[field] ?? '';
  const read = readQuantityField({ kind: 'volume', text, keptText, house: cellar.rules });
  return read.type === 'understood' ? read.understood.volumeUl : 0;
}
