import { forProducts, fullDaysSince, hoursSince } from '../ask.ts';
import type { Inspection } from '../facts-of-uses.ts';
import { closedUp, DAY_MS } from '../measurement.ts';
import {
  cautionBecause,
  defineRule,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Rule,
  type RuleContext,
  type Use,
} from '../rule.ts';

/** Days that a look counts: a week while it works or stands open, half a year closed up. Policy, after the ages of MEAS-04. */
const LOOK_DAYS = { open: 7, closed: 180 };
/** Hours to wait for a growth to show what it is. Policy, S91. */
const HOLD_HOURS = 48;
/** Weeks that a varnish smell may take to fade. Sources S97 and S98 conflict; policy. */
const SOLVENT_DAYS = 28;

const EVERY_MOUTHFUL: readonly Use[] = [
  'drink',
  'eat',
  'dressSalad',
  'giveAway',
  'refrigeratePickle',
  'keep',
  'keepAsCulture',
];

/** Rules MLD-01 to 03, FLY-01, ETH-01 and OFF-01: growths, flies and smells. */
export const GROWTH_RULES: readonly Rule[] = [
  defineRule({
    id: 'MLD-01',
    uses: EVERY_MOUTHFUL,
    reasons: ['met', 'missing', 'stale_age', 'category'],
    sourceIds: ['S89', 'S36', 'S90', 'S91', 'S28'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    check: (context) =>
      looked(context, (inspection) => {
        if (inspection.growth === null || inspection.growth === 'cannotTell') {
          return unknownBecause('missing', 'inspection.growth');
        }
        return inspection.growth === 'fuzzyOrColoured' ? doNotBecause('category') : okBecause({});
      }),
  }),
  defineRule({
    id: 'MLD-02',
    uses: EVERY_MOUTHFUL,
    reasons: ['met', 'missing', 'stale_age', 'condition', 'deadline'],
    sourceIds: ['S92', 'S93', 'S94'],
    evidence: ['seen'],
    mayBeOverruled: false,
    applies: ({ facts }) => {
      const growth = facts.inspection?.growth ?? null;
      return growth === 'flatFilm' || growth === 'jellyDisc' ? 'yes' : 'no';
    },
    check: (context) => looked(context, (inspection) => flatGrowth(context, inspection)),
  }),
  defineRule({
    id: 'MLD-03',
    uses: EVERY_MOUTHFUL,
    reasons: ['missing', 'not_yet', 'deadline'],
    sourceIds: ['POLICY', 'S91'],
    evidence: ['policy', 'seen'],
    mayBeOverruled: false,
    applies: ({ facts }) => (facts.inspection?.growth === 'cannotTell' ? 'yes' : 'no'),
    check: ({ facts }) => {
      const hours = hoursSince(facts.inspection?.undecidedSinceMs, facts.nowMs);
      if (hours === null) return unknownBecause('missing', 'inspection.undecidedSinceMs');
      return hours > HOLD_HOURS
        ? doNotBecause('deadline', { hours, limit: HOLD_HOURS })
        : unknownBecause('not_yet', 'inspection.growth', { hours, limit: HOLD_HOURS });
    },
  }),
  defineRule({
    id: 'FLY-01',
    uses: EVERY_MOUTHFUL,
    reasons: ['met', 'missing', 'stale_age', 'condition', 'category'],
    sourceIds: ['S95', 'S96'],
    evidence: ['seen'],
    check: (context) =>
      looked(context, ({ flies, cover }) => {
        if (flies === 'larvae' || (flies === 'inside' && cover === 'cheesecloth'))
          return doNotBecause('category');
        if (flies === null) return unknownBecause('missing', 'inspection.flies');
        // Flies inside under cheesecloth mean throwing it out, so the cover must be known.
        if (flies === 'inside' && cover === null) return unknownBecause('missing', 'inspection.cover');
        if (flies !== 'none') return cautionBecause('condition');
        return cover === 'cheesecloth' || cover === null ? cautionBecause('condition') : okBecause({});
      }),
  }),
  defineRule({
    id: 'ETH-01',
    uses: EVERY_MOUTHFUL,
    reasons: ['met', 'missing', 'stale_age', 'condition', 'not_yet', 'deadline'],
    sourceIds: ['S97', 'S98', 'POLICY'],
    evidence: ['seen (secondary)', 'policy'],
    applies: ({ facts, ...rest }) =>
      forProducts(
        'vinegar',
        'kombucha',
        'wine',
        'cider',
        'mead',
        'waterKefir',
        'infusedVinegar',
      )({ ...rest, facts }),
    check: (context) => looked(context, (inspection) => solventSmell(context, inspection)),
  }),
  defineRule({
    id: 'OFF-01',
    uses: EVERY_MOUTHFUL,
    reasons: ['met', 'missing', 'stale_age', 'condition', 'category'],
    sourceIds: ['S36', 'S99'],
    evidence: ['seen'],
    check: (context) =>
      looked(context, ({ smell }) => {
        if (smell === null) return unknownBecause('missing', 'inspection.smell');
        if (smell === 'putrid') return doNotBecause('category');
        if (smell !== 'rottenEgg') return okBecause({});
        const racked = forProducts('wine', 'cider', 'mead')(context) === 'yes';
        return racked ? cautionBecause('condition') : doNotBecause('category');
      }),
  }),
];

/** An inspection that is there and recent enough, handed on; what it finds against the jar counts however old it is. */
function looked({ facts }: RuleContext, judge: (inspection: Inspection) => Answer): Answer {
  const { inspection, nowMs } = facts;
  if (!inspection) return unknownBecause('missing', 'inspection');
  const answer = judge(inspection);
  if (answer.verdict === 'do_not') return answer;
  const limitDays = closedUp(facts) ? LOOK_DAYS.closed : LOOK_DAYS.open;
  const ageMs = nowMs - inspection.atMs;
  if (!(ageMs >= 0 && ageMs <= limitDays * DAY_MS))
    return unknownBecause('stale_age', 'inspection', { ageMs });
  return answer;
}

function flatGrowth(context: RuleContext, inspection: Inspection): Answer {
  const { facts } = context;
  if (inspection.growth === 'jellyDisc') {
    const acetic = forProducts('vinegar', 'kombucha')(context) === 'yes';
    return acetic ? okBecause({}) : cautionBecause('condition');
  }
  const brined = forProducts('brinedVegetables', 'kimchi')(context) === 'yes';
  const days = fullDaysSince(facts.ferment?.startedAtMs, facts.nowMs);
  if (!brined) return cautionBecause('condition');
  if (days === null) return unknownBecause('missing', 'ferment.startedAtMs');
  const { usable } = context.inspect('pH');
  // A film on a jar that has not soured in its time is thrown out (VEG-01, VEG-08: 7 days, at most 14).
  if (days >= FILM_DEADLINE_DAYS && !(usable !== null && usable.value + usable.uncertainty < FILM_PH)) {
    return usable === null ? unknownBecause('missing', 'pH', { days }) : doNotBecause('deadline', { days });
  }
  return cautionBecause('condition', { days });
}

/** The day and pH by which a brine must have soured under a film. Source: rule VEG-01. */
const FILM_DEADLINE_DAYS = 7;
const FILM_PH = 4.6;

function solventSmell({ facts }: RuleContext, inspection: Inspection): Answer {
  const { smell } = inspection;
  if (smell === null) return unknownBecause('missing', 'inspection.smell');
  if (smell === 'solventFaint') return cautionBecause('condition');
  if (smell !== 'solventStrong') return okBecause({});
  const days = fullDaysSince(inspection.solventSinceMs, facts.nowMs);
  if (days === null) return unknownBecause('missing', 'inspection.solventSinceMs');
  return days >= SOLVENT_DAYS
    ? doNotBecause('deadline', { days, limit: SOLVENT_DAYS })
    : unknownBecause('not_yet', 'inspection.smell', { days, limit: SOLVENT_DAYS });
}
