import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Headline, ShelfRow } from '#core/contract/shelves.ts';
import { dueGroupOf, sayDue, type DayBounds } from './due-words.ts';
import { sayAcidity, sayGravity, sayPh, sayVolume } from './quantity-words.ts';
import { sayConcernShort, sayStage } from './stage-words.ts';
import { calendarDays, sayAge, sayAgo, sayShortDate } from './time-words.ts';

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity'>;

/** How a vessel is told from others: by what is in it, else by its own name, else as empty. */
export function vesselTitle(row: ShelfRow): string {
  if (row.batchName !== null) return row.batchName;
  return row.vesselName === '' ? `Vessel ${row.number}` : row.vesselName;
}

/** `10 L demijohn`. */
export function sayVesselKind(row: Pick<ShelfRow, 'capacityUl' | 'silhouette'>, rules: Rules): string {
  return `${sayVolume(row.capacityUl, rules)} ${row.silhouette}`;
}

/** How full a vessel is, in whole per cent; something never shows as 0 and less than all never as 100. */
export function fullPercent(row: Pick<ShelfRow, 'volumeUl' | 'capacityUl'>): number {
  if (row.volumeUl <= 0) return 0;
  if (row.volumeUl >= row.capacityUl) return 100;
  return Math.min(99, Math.max(1, Math.round((row.volumeUl / row.capacityUl) * 100)));
}

/** The value on the ticket: `1.012`, `4.1 %`, `pH 3.60`. */
export function sayHeadlineShort(headline: Headline, rules: Rules): string {
  switch (headline.kind) {
    case 'gravity':
      return sayGravity(headline.sg, rules);
    case 'acidity':
      return sayAcidity(headline.gramsPer100Ml, null).replace(/,.*$/u, '');
    case 'ph':
      return sayPh(headline.ph);
  }
}

/** The value in full, the acid named: `gravity 1.012`, `acidity 4.1 % as acetic`, `pH 3.60`. */
export function sayHeadline(headline: Headline, rules: Rules): string {
  switch (headline.kind) {
    case 'gravity':
      return `gravity ${sayGravity(headline.sg, rules)}`;
    case 'acidity':
      return `acidity ${sayAcidity(headline.gramsPer100Ml, headline.as, headline.uncertainty)}`;
    case 'ph':
      return sayPh(headline.ph, headline.uncertainty);
  }
}

/**
 * Second line of the ticket: the last value and how long the batch has stood, or what an empty vessel could hold.
 * Away from its shelf (`withSpot`) it begins with where the vessel stands and leaves the age out.
 */
export function sayTicket(row: ShelfRow, rules: Rules, nowMs: number, withSpot = false): string {
  const value = row.holder === '' ? ticketValue(row, rules, nowMs) : `with ${row.holder}`;
  if (withSpot) return row.spot === null ? value : `${row.spot} · ${value}`;
  if (row.stage === 'empty' || row.startedAtMs === null) return value;
  if (row.stage === 'culture' && row.fedAtMs !== null) return value;
  return `${value} · ${sayAge(row.startedAtMs, nowMs)}`;
}

/** True while an empty vessel rests: the day until which it does is not here yet. */
export function isResting(row: Pick<ShelfRow, 'stage' | 'restUntilMs'>, nowMs: number): boolean {
  return row.stage === 'empty' && row.restUntilMs !== null && calendarDays(nowMs, row.restUntilMs) > 0;
}

/** What is to be known of a vessel itself before it is used: who has it, and until when it rests. */
export function sayVesselAway(
  row: Pick<ShelfRow, 'stage' | 'holder' | 'restUntilMs'>,
  nowMs: number,
): readonly string[] {
  const said: string[] = [];
  if (row.restUntilMs !== null && isResting(row, nowMs)) {
    said.push(`resting until ${sayShortDate(row.restUntilMs)}`);
  }
  if (row.holder !== '') said.push(`with ${row.holder}`);
  return said;
}

function ticketValue(row: ShelfRow, rules: Rules, nowMs: number): string {
  if (row.stage === 'empty') {
    if (row.restUntilMs !== null && isResting(row, nowMs)) {
      return `rests until ${sayShortDate(row.restUntilMs)}`;
    }
    return `${row.cleanedAtMs === null ? 'empty' : 'clean'}, ${sayVolume(row.capacityUl, rules)}`;
  }
  if (row.stage === 'culture') return row.fedAtMs === null ? 'culture' : `fed ${sayAgo(row.fedAtMs, nowMs)}`;
  return row.headline === null ? sayVolume(row.volumeUl, rules) : sayHeadlineShort(row.headline, rules);
}

/**
 * What a reader says of a vessel, in this order: what is in it, its stage, a closure that works against it, what it
 * is, how full, whether it rests or is with somebody, the last value, what is due, and where it stands.
 */
export function sayVessel(row: ShelfRow, rules: Rules, today: DayBounds): string {
  const said = [vesselTitle(row), sayStage(row.stage)];
  if (row.closureConcern !== null) said.push(`Held: ${sayConcernShort(row.closureConcern)}`);
  said.push(sayVesselKind(row, rules));
  if (row.stage !== 'empty') said.push(`${fullPercent(row)} % full`);
  said.push(...sayVesselAway(row, today.startMs));
  if (row.headline !== null) said.push(sayHeadline(row.headline, rules));
  if (row.due !== null && dueGroupOf(row.due, today) !== 'later') said.push(sayDue(row.due, today));
  const where = row.spot === null ? 'Not placed' : row.spot;
  return `${said.join(', ').replaceAll('\u00A0', ' ')}. ${where}.`;
}
