import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal } from './decide-vessels.ts';
import { filledVessel } from './fill-amounts.ts';
import type { LedgerError } from './ledger-error.ts';
import { addMasses, COMPONENTS, tidyMasses, totalUg, type MassDeltas, type Masses } from './masses.ts';
import { acetify, ferment, overOxidise, sour, type Reaction } from './reactions.ts';
import type { FillRecord } from './records.ts';

type Step = ActOf<'reconcile'>['steps'][number];

/**
 * Brings what the book says a liquid is made of to what was found: living work with a named yield, and what then
 * still differs through `unexplained`. Readings stay as they are, and so does the volume.
 */
export function reconcile(book: ChangeSet, act: ActOf<'reconcile'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  let fill = filled.fill;
  for (const step of act.steps) {
    const next = stepOn(book, fill, step);
    if (isRefusal(next)) return next;
    fill = next;
  }
  book.put('fill', fill);
  return null;
}

function stepOn(book: ChangeSet, fill: FillRecord, step: Step): FillRecord | LedgerError {
  if (step.kind === 'assay') return assayed(book, fill, tidyMasses(step.massesUg));
  const reaction = reactionOf(step);
  for (const component of COMPONENTS) {
    const heldUg = fill.massesUg[component] ?? 0;
    const wantedUg = 0 - (reaction.vessel[component] ?? 0);
    if (wantedUg > heldUg) return { type: 'MassShort', field: 'steps', component, heldUg, wantedUg };
  }
  const { vessel, air } = reaction;
  book.post('conversion', fill.id, 0, vessel);
  book.post('conversion', 'air', 0, air);
  return { ...fill, massesUg: addMasses(fill.massesUg, vessel) };
}

function reactionOf(step: Exclude<Step, { kind: 'assay' }>): Reaction {
  switch (step.kind) {
    case 'ferment':
      return ferment(step.sugarUg, step.yieldPpm);
    case 'acetify':
      return acetify(step.ethanolUg, step.acidSharePpm);
    case 'sour':
      return sour(step.sugarUg);
    case 'overOxidise':
      return overOxidise(step.aceticUg);
  }
}

function assayed(book: ChangeSet, fill: FillRecord, massesUg: Masses): FillRecord | LedgerError {
  if (totalUg(massesUg) === 0) return { type: 'NothingToAdd', field: 'steps' };
  const difference: Record<string, number> = {};
  for (const component of COMPONENTS) {
    difference[component] = (massesUg[component] ?? 0) - (fill.massesUg[component] ?? 0);
  }
  book.post('unexplained', fill.id, 0, tidyMasses(difference as MassDeltas));
  return { ...fill, massesUg };
}
