import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ActOf } from '#core/ledger/act.ts';
import { sayMass, sayVolume, trimmed } from './quantity-words.ts';
import { isoDayOf } from './time-words.ts';

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>;
/** The name of what an id stands for, else the words given. */
type Called = (id: string | null, otherwise: string) => string;
/** Acts on several vessels at once, on bottles and on vessels themselves. */
export type CellarWork = ActOf<
  | 'split'
  | 'blend'
  | 'drawAndRefill'
  | 'sample'
  | 'filter'
  | 'cleanVessel'
  | 'lendVessel'
  | 'takeBottles'
  | 'returnBottles'
  | 'reconcile'
  | 'quarantine'
  | 'releaseBottles'
>;

/** Such an act as a sentence without its date and its full stop. */
export function sayCellarWork(act: CellarWork, called: Called, rules: Rules): string {
  const amount = (ul: number): string => sayVolume(ul, rules);
  const vessel = (id: string | null): string => called(id, 'a vessel');
  switch (act.kind) {
    case 'split': {
      const parts = act.parts.map(
        ({ volumeUl, newBatch, toVesselId }) =>
          `${amount(volumeUl)} to ${newBatch?.name ?? vessel(toVesselId)}`,
      );
      const lees = act.leesUl === 0 ? '' : `; ${amount(act.leesUl)} left as lees`;
      return `${vessel(act.fromVesselId)} split: ${parts.join(', ')}${lees}`;
    }
    case 'blend': {
      const parts = act.parts.map(
        ({ fromVesselId, volumeUl }) => `${amount(volumeUl)} of ${vessel(fromVesselId)}`,
      );
      return `blended in ${act.newBatch?.name ?? vessel(act.toVesselId)}: ${parts.join(', ')}`;
    }
    case 'drawAndRefill': {
      const to = act.toVesselId === null ? '' : ` to ${act.newBatch?.name ?? vessel(act.toVesselId)}`;
      return `${amount(act.drawnUl)} drawn from ${vessel(act.vesselId)}${to}, refilled with ${amount(act.refillUl)} of ${vessel(act.fromVesselId)}`;
    }
    case 'sample':
      return because(
        `sample of ${amount(act.volumeUl)} from ${vessel(act.vesselId)}, for ${SAMPLE_WORDS[act.purpose]}`,
        act.note,
      );
    case 'filter': {
      const lost = act.lossUl === 0 ? '' : `, ${amount(act.lossUl)} lost`;
      return because(`${vessel(act.vesselId)} ${FILTER_WORDS[act.how]}${lost}`, act.note);
    }
    case 'cleanVessel': {
      const rest = act.restUntilMs === null ? '' : `, resting until ${isoDayOf(act.restUntilMs)}`;
      return because(`${vessel(act.vesselId)} ${act.how}${rest}`, act.note);
    }
    case 'lendVessel':
      return because(
        act.holder === ''
          ? `${vessel(act.vesselId)} is back`
          : `${vessel(act.vesselId)} is with ${act.holder}`,
        act.note,
      );
    case 'takeBottles': {
      const whom = act.holder === '' ? '' : ` to ${act.holder}`;
      return because(`${bottlesOf(act, called)} ${act.how}${whom}`, act.note);
    }
    case 'returnBottles': {
      const lost = act.lossUl === 0 ? '' : `, ${amount(act.lossUl)} lost`;
      return because(`${bottlesOf(act, called)} emptied into ${vessel(act.toVesselId)}${lost}`, act.note);
    }
    case 'quarantine':
      return because(`${apart(act)} kept apart with ${called(rootId(act), 'where it began')}`, act.reason);
    case 'releaseBottles':
      return because(`bottles of ${called(act.lotId, 'a batch')} no longer kept apart`, act.reason);
    case 'reconcile':
      return because(
        `book of ${vessel(act.vesselId)} brought up to date: ${act.steps.map((step) => sayStep(step, rules)).join('; ')}`,
        act.note,
      );
  }
}

/** The same as a noun phrase for a button or a bar. */
export function sayCellarWorkShort(act: CellarWork, called: Called, rules: Rules): string {
  const vessel = (id: string): string => called(id, 'a vessel');
  switch (act.kind) {
    case 'split':
      return `splitting ${vessel(act.fromVesselId)} into ${act.parts.length}`;
    case 'blend':
      return `blending ${act.parts.length} into ${act.newBatch?.name ?? vessel(act.toVesselId)}`;
    case 'drawAndRefill':
      return `drawing and refilling ${vessel(act.vesselId)}`;
    case 'sample':
      return `sample of ${sayVolume(act.volumeUl, rules)} from ${vessel(act.vesselId)}`;
    case 'filter':
      return `filtering ${vessel(act.vesselId)}`;
    case 'cleanVessel':
      return `cleaning ${vessel(act.vesselId)}`;
    case 'lendVessel':
      return act.holder === '' ? `return of ${vessel(act.vesselId)}` : `lending ${vessel(act.vesselId)}`;
    case 'takeBottles':
      return `taking ${bottles(act.bottles)}`;
    case 'returnBottles':
      return `emptying ${bottles(act.bottles)} into ${vessel(act.toVesselId)}`;
    case 'quarantine':
      return `keeping ${apart(act)} apart`;
    case 'releaseBottles':
      return `release of bottles of ${called(act.lotId, 'a batch')}`;
    case 'reconcile':
      return `bringing the book of ${vessel(act.vesselId)} up to date`;
  }
}

/** Living work or an assay in words, with its yield named. */
export function sayStep(step: ActOf<'reconcile'>['steps'][number], rules: Rules): string {
  switch (step.kind) {
    case 'ferment':
      return `${sayMass(step.sugarUg, rules)} sugar fermented, yield ${percent(step.yieldPpm)} of the theory`;
    case 'acetify':
      return `${sayMass(step.ethanolUg, rules)} alcohol turned, ${percent(step.acidSharePpm)} of it into acid`;
    case 'sour':
      return `${sayMass(step.sugarUg, rules)} sugar soured to lactic acid`;
    case 'overOxidise':
      return `${sayMass(step.aceticUg, rules)} acid burnt off`;
    case 'assay':
      return 'what it is made of set to what was measured';
  }
}

const SAMPLE_WORDS = {
  gravity: 'gravity',
  titration: 'titration',
  ph: 'pH',
  tasting: 'tasting',
  other: 'another use',
} as const;
const FILTER_WORDS = {
  cloth: 'strained through cloth',
  paper: 'filtered through paper',
  pads: 'filtered through pads',
  membrane: 'filtered through a membrane',
  fined: 'fined clear',
} as const;

function percent(ppm: number): string {
  return `${trimmed(ppm / 10_000, 1)}\u00A0%`;
}

function bottles(count: number): string {
  return count === 1 ? '1 bottle' : `${count} bottles`;
}

function apart({ vesselIds, lotIds }: ActOf<'quarantine'>): string {
  const vessels = vesselIds.length === 1 ? '1 vessel' : `${vesselIds.length} vessels`;
  if (lotIds.length === 0) return vessels;
  const lots = lotIds.length === 1 ? '1 lot of bottles' : `${lotIds.length} lots of bottles`;
  return vesselIds.length === 0 ? lots : `${vessels} and ${lots}`;
}

function rootId({ root }: ActOf<'quarantine'>): string {
  switch (root.kind) {
    case 'batch':
      return root.batchId;
    case 'culture':
      return root.cultureId;
    case 'lot':
      return root.lotId;
    case 'vessel':
      return root.vesselId;
  }
}

/** `2 bottles of Orchard cider`. */
function bottlesOf(
  { bottles: count, lotId }: { readonly bottles: number; readonly lotId: string },
  called: Called,
): string {
  const name = called(lotId, '');
  return name === '' ? bottles(count) : `${bottles(count)} of ${name}`;
}

function because(said: string, why: string): string {
  return why === '' ? said : `${said} (${why})`;
}
