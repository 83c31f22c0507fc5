import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Found, FoundDay } from '#core/contract/find.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Stage } from '#core/ledger/stage.ts';
import type { Destination } from '../navigation/destination.ts';
import { capital, CULTURE_SORT_WORDS, FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import type { Said } from '../words/error-words.ts';
import { sayDate } from '../words/time-words.ts';
import { sayTicket, vesselTitle } from '../words/vessel-words.ts';

/** What choosing an option does. */
export type OptionAct =
  | { readonly type: 'go'; readonly to: Destination }
  | { readonly type: 'startBatch'; readonly name: string }
  | { readonly type: 'addVessel' }
  | { readonly type: 'replaceLine'; readonly line: string }
  | { readonly type: 'keepPiece'; readonly piece: string };

export interface FindOption {
  readonly key: string;
  readonly label: string;
  /** Which parts of the label are what was looked for. */
  readonly marks?: readonly (readonly [number, number])[];
  readonly detail: string;
  /** Drawn before the label where the thing has a stage. */
  readonly stage: Stage | null;
  /** What Enter does with it, as the line beneath the field says it: "Enter opens the leaf of Damson wine." */
  readonly says: string;
  readonly act: OptionAct;
}

export interface OptionGroup {
  readonly name: string;
  readonly options: readonly FindOption[];
}

interface Saying {
  readonly rules: HouseRules;
  readonly nowMs: number;
}

/** What was found, grouped in the order vessels, batches, cultures, days; empty groups are left out. */
export function foundGroups(found: Found, saying: Saying): readonly OptionGroup[] {
  return [
    { name: 'Vessels', options: found.vessels.map((row) => vesselOption(row, saying)) },
    {
      name: 'Batches',
      options: found.batches.map((batch): FindOption => ({
        key: `batch-${batch.batchId}`,
        label: batch.name,
        detail: [batch.code, FERMENT_KIND_WORDS[batch.ferment], ...batch.spots.slice(0, 3)].join(' · '),
        stage: batch.stage,
        says: `Enter opens the leaf of ${batch.name}.`,
        act: { type: 'go', to: { place: 'leaf', batchId: batch.batchId } },
      })),
    },
    {
      name: 'Cultures',
      options: found.cultures.map((culture): FindOption => ({
        key: `culture-${culture.cultureId}`,
        label: culture.name,
        detail: capital(CULTURE_SORT_WORDS[culture.sort]),
        stage: null,
        says: `Enter shows ${culture.name} among the cultures.`,
        act: { type: 'go', to: { place: 'cultures', cultureId: culture.cultureId } },
      })),
    },
    { name: 'Days', options: found.days.flatMap((day) => dayOption(day, saying)) },
  ].filter(({ options }) => options.length > 0);
}

/** What can be done when nothing bears the name. */
export function nothingFoundGroup(text: string): OptionGroup {
  return {
    name: 'Instead',
    options: [
      {
        key: 'start-batch',
        label: `Start a batch called “${text}”`,
        detail: '',
        stage: null,
        says: `Enter starts a batch called “${text}”.`,
        act: { type: 'startBatch', name: text },
      },
      {
        key: 'add-vessel',
        label: 'Add a vessel',
        detail: '',
        stage: null,
        says: 'Enter opens the form for a new vessel.',
        act: { type: 'addVessel' },
      },
    ],
  };
}

/** The ways out of a line that is not plain yet. Each is chosen on purpose; none is chosen for the keeper. */
export function fixGroup(said: Said): OptionGroup {
  return {
    name: 'Which is meant',
    options: said.fixes.map((fix, index): FindOption => ({
      key: `fix-${index}`,
      label: fix.label,
      detail: '',
      stage: null,
      says:
        fix.how === 'keep'
          ? `Enter takes ${fix.text} as it stands.`
          : `Enter changes the line to “${fix.text}”.`,
      act:
        fix.how === 'keep' ? { type: 'keepPiece', piece: fix.text } : { type: 'replaceLine', line: fix.text },
    })),
  };
}

function vesselOption(row: ShelfRow, { rules, nowMs }: Saying): FindOption {
  const title = vesselTitle(row);
  const where = row.spot === null ? `vessel ${row.number}` : `${row.spot}, vessel ${row.number}`;
  return {
    key: `vessel-${row.vesselId}`,
    label: title,
    detail: `${where} · ${sayTicket(row, rules, nowMs)}`,
    stage: row.stage,
    says: `Enter shows ${title} on the shelf.`,
    act: { type: 'go', to: { place: 'shelves', vesselId: row.vesselId } },
  };
}

function dayOption(day: FoundDay, { rules }: Saying): FindOption[] {
  const to = dayDestination(day);
  if (to === null) return [];
  const whose = day.batch?.name ?? day.culture?.name ?? '';
  const date = sayDate(day.happenedAtMs, rules);
  return [
    {
      key: `day-${day.entryId}`,
      label: day.text,
      marks: day.marks,
      detail: whose === '' ? date : `${date} · ${whose}`,
      stage: null,
      says: day.batch === null ? 'Enter goes to where it stands.' : `Enter opens the leaf of ${whose}.`,
      act: { type: 'go', to },
    },
  ];
}

/** A day stands on its batch's leaf, else with its vessel, else with its culture. */
function dayDestination({ batch, vesselId, culture }: FoundDay): Destination | null {
  if (batch !== null) return { place: 'leaf', batchId: batch.batchId };
  if (vesselId !== null) return { place: 'shelves', vesselId };
  return culture === null ? null : { place: 'cultures', cultureId: culture.cultureId };
}
