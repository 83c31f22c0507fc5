import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { Calibration, UsedSheet } from '#core/contract/labels.ts';
import { LabelLayout } from '#core/labels/layout.ts';

/** What the desk keeps in the cellar file, so that it travels with it. */
export const KeptDesk = z.object({
  layouts: z.array(LabelLayout).default([]),
  calibrations: z.array(Calibration).default([]),
  // Marks in a form that is not read any more are let go: what is left of a sheet can be seen.
  used: z.array(UsedSheet).catch([]).default([]),
});
export type KeptDesk = z.infer<typeof KeptDesk>;

/** Keeps what the desk remembers beside the House Rules: it is a habit of the house and no line of the book. */
export interface LabelDeskStore {
  read(): KeptDesk;
  keep(desk: KeptDesk): void;
}

const KEY = 'labelDesk';

export function openLabelDeskStore(sqlite: Database, refuseWriting: () => void): LabelDeskStore {
  const select = sqlite
    .prepare(`SELECT json_extract(house_rules, '$.${KEY}') FROM cellar WHERE id = 1`)
    .pluck();
  const update = sqlite.prepare(
    `UPDATE cellar SET house_rules = json_set(house_rules, '$.${KEY}', json(?)) WHERE id = 1`,
  );
  return {
    read() {
      const kept = select.get() as string | null;
      return KeptDesk.parse(kept === null ? {} : JSON.parse(kept));
    },
    keep: (desk) => {
      refuseWriting();
      update.run(JSON.stringify(desk));
    },
  };
}
