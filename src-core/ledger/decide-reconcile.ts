import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal } from './decide-vessels.ts';
import { filledVessel } from './fill-amounts.ts';
import type { LedgerError } from './ledger-error.ts';
import { addMasses, COMPONENTS, negateMasses, tidyMasses, totalUg, type Masses } from './masses.ts';
import { acetify, ferment, overOxidise, sour, type Reaction } from './reactions.ts';
import type { FillRecord } from './records.ts';

type Step = ActOf<'reconcile'>['steps'][number];
type Assay = Extract<Step, { kind: 'assay' }>;

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
  const reading = act.readingId === null ? null : book.get('reading', act.readingId);
  if (act.readingId !== null && reading === null) {
    return { type: 'NotFound', field: 'readingId', what: 'reading', id: act.readingId };
  }
  const settledAtMs = Math.max(fill.settledAtMs, reading?.atMs ?? book.context.happenedAtMs);
  book.put('fill', { ...fill, settledAtMs });
  return null;
}

function stepOn(book: ChangeSet, fill: FillRecord, step: Step): FillRecord | LedgerError {
  if (step.kind === 'assay') return assayed(book, fill, step);
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

function assayed(book: ChangeSet, fill: FillRecord, step: Assay): FillRecord | LedgerError {
  const massesUg = measured(fill.massesUg, step);
  if (totalUg(massesUg) === 0) return { type: 'NothingToAdd', field: 'steps' };
  book.post('unexplained', fill.id, 0, addMasses(massesUg, negateMasses(fill.massesUg)));
  return { ...fill, massesUg };
}

/** What a liquid is made of by an assay. Zero of a component is a measurement too. */
function measured(held: Masses, { massesUg, whole }: Assay): Masses {
  if (whole) return tidyMasses(massesUg);
  const { unassayed: _never, ...named } = massesUg;
  const moreUg = COMPONENTS.reduce((sum, component) => {
    const ug = (named as Masses)[component];
    return ug === undefined ? sum : sum + ug - (held[component] ?? 0);
  }, 0);
  const outOfUg = Math.min(Math.max(moreUg, 0), held.unassayed ?? 0);
  return tidyMasses({ ...held, ...named, unassayed: (held.unassayed ?? 0) - outOfUg });
}
