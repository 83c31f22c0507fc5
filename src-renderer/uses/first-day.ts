import type { ReadingValues } from '#core/ledger/act.ts';
import type { FermentKind } from '#core/ledger/stage.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Gauged } from '#core/safety/facts-of-uses.ts';
import type { Method } from '#core/quantities/uncertainty.ts';
import type { Finding } from '#core/safety/verdict.ts';
import type { FactPath } from '../words/fact-words.ts';
import { nothingKnown } from './nothing-known.ts';

const PATHS: Readonly<Partial<Record<FermentKind, readonly FactPath[]>>> = {
  brinedVegetables: ['salting.vegetableGrams', 'salting.waterGrams', 'salting.saltGrams'],
  kombucha: ['starter.percent', 'starter.mature'],
};
const PH_METHODS: Readonly<Partial<Record<NonNullable<ReadingValues['phMethod']>, Method>>> = {
  meterToday: 'phMeterTwoBuffersToday',
  meterThisWeek: 'phMeterWithinAWeek',
  narrowStrip: 'phStripNarrow',
  wideStrip: 'phStripWide',
};

/** What only the first day of a kind of ferment can tell, and its rules ask for: salt by weight, or the starter. */
export function firstDayPaths(ferment: FermentKind | null): readonly FactPath[] {
  return (ferment === null ? undefined : PATHS[ferment]) ?? [];
}

/** What the rules on the start of a ferment say of what is told so far: VEG-03 on the salt, KOM-03 on the starter. */
export function firstDayFindings(
  ferment: FermentKind | null,
  told: Pick<ToldFacts, 'salting' | 'starter'>,
  measured: ReadingValues | null,
  nowMs: number,
): readonly Finding[] {
  if (ferment === 'brinedVegetables') {
    const facts = { ...nothingKnown(nowMs), product: ferment, salting: told.salting ?? null };
    return evaluate('eat', facts, WHOLE_BOOK).findings.filter(({ ruleId }) => ruleId === 'VEG-03');
  }
  if (ferment !== 'kombucha') return [];
  const starter = {
    percent: told.starter?.percent ?? null,
    mature: told.starter?.mature ?? null,
    startPh: phAtStart(measured),
  };
  const facts = { ...nothingKnown(nowMs), product: ferment, starter };
  return evaluate('startKombucha', facts, WHOLE_BOOK).findings;
}

/** The pH as measured when it was set, with the usual error of its method; without a method it shows nothing. */
function phAtStart(measured: ReadingValues | null): Gauged | null {
  if (measured === null || measured.ph === null) return null;
  const method = measured.phMethod === null ? null : (PH_METHODS[measured.phMethod] ?? null);
  return { value: measured.ph, uncertainty: measured.detail?.phUncertainty ?? null, method };
}
