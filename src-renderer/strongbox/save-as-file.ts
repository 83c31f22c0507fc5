import { saveFile } from '../ui/save-file.ts';

/** Hands text to the window to keep as a file. */
export function saveAsFile(name: string, parts: readonly string[], type = 'text/csv'): void {
  saveFile(name, new Blob([...parts], { type: `${type};charset=utf-8` }));
}
