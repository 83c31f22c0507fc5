import type { VesselId } from '#core/ledger/ids.ts';
import { draftFor } from '../shell/drafts.ts';

/** A reckoning laid aside by name: its fields as typed, and the vessel it was for. */
export interface KeptSheet {
  readonly id: string;
  readonly name: string;
  readonly reckoningId: string;
  readonly vesselId: VesselId | null;
  readonly fields: Readonly<Record<string, string>>;
  readonly keptAtMs: number;
}

/** The sheets kept on the bench of one cellar, newest first. They lie in this browser's own store, not in the book. */
class KeptSheets {
  sheets = $state.raw<readonly KeptSheet[]>([]);
  /** The sheet taken off last, until another is: it can be laid back. */
  takenOff = $state.raw<KeptSheet | null>(null);
  #cellar = '';

  /** Reads the sheets of a cellar, told apart by its file. */
  open(cellar: string): void {
    if (cellar === this.#cellar) return;
    this.#cellar = cellar;
    this.takenOff = null;
    this.sheets = Object.values(this.#draft().read() ?? {})
      .flatMap((text) => {
        const sheet = sheetOf(text);
        return sheet === null ? [] : [sheet];
      })
      .toSorted(newestFirst);
  }

  /** Keeps a sheet; one of the same name for the same reckoning is replaced. */
  keep(sheet: Omit<KeptSheet, 'id'>): KeptSheet {
    const same = this.sheets.find(
      ({ name, reckoningId }) => name === sheet.name && reckoningId === sheet.reckoningId,
    );
    const kept = { ...sheet, id: same?.id ?? crypto.randomUUID() };
    this.#take([kept, ...this.sheets.filter(({ id }) => id !== kept.id)]);
    return kept;
  }

  takeOff(sheet: KeptSheet): void {
    this.#take(this.sheets.filter(({ id }) => id !== sheet.id));
    this.takenOff = sheet;
  }

  layBack(): void {
    if (this.takenOff === null) return;
    this.#take([...this.sheets, this.takenOff].toSorted(newestFirst));
    this.takenOff = null;
  }

  #take(sheets: readonly KeptSheet[]): void {
    this.sheets = sheets;
    const texts = Object.fromEntries(sheets.map((sheet) => [sheet.id, JSON.stringify(sheet)]));
    if (sheets.length === 0) this.#draft().forget();
    else this.#draft().keep(texts);
  }

  #draft() {
    return draftFor<Record<string, string>>(`bench-sheets:${this.#cellar}`);
  }
}

export const keptSheets = new KeptSheets();

const newestFirst = (a: KeptSheet, b: KeptSheet): number => b.keptAtMs - a.keptAtMs;

/** A sheet read back; null for a text that is none. */
function sheetOf(text: string | undefined): KeptSheet | null {
  try {
    const read: unknown = JSON.parse(text ?? 'null');
    if (typeof read !== 'object' || read === null) return null;
    const { id, name, reckoningId, vesselId, fields, keptAtMs } = read as Partial<KeptSheet>;
    if (typeof id !== 'string' || typeof name !== 'string' || typeof reckoningId !== 'string') return null;
    if (typeof keptAtMs !== 'number' || typeof fields !== 'object') return null;
    const texts = Object.entries(fields).filter(([, field]) => typeof field === 'string');
    return {
      ...{ id, name, reckoningId, keptAtMs },
      vesselId: typeof vesselId === 'string' ? vesselId : null,
      fields: Object.fromEntries(texts),
    };
  } catch {
    return null;
  }
}
