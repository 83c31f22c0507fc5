import { assertNever } from '#core/base/exhaustive.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { isoMinute, type LocalTime } from '#core/quantities/civil-time.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { ChalkError } from '#core/quantities/parse-chalk.ts';
import type { WhenError } from '#core/quantities/parse-when.ts';
import { shownText } from '#core/quantities/format-quantity.ts';
import type { QuantityError, QuantityKind } from '#core/quantities/understood.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { CLOSURE_WORDS } from './choice-words.ts';
import { COMPONENT_WORDS } from './component-words.ts';
import {
  exactVolumeText,
  QUANTITY_NAMES,
  sayMass,
  sayTemperature,
  sayValue,
  sayVolume,
  trimmed,
} from './quantity-words.ts';

/** A way out offered as a button: `text` goes into the field; `keep` leaves it and keeps it as it stands. */
export interface Fix {
  readonly label: string;
  readonly text: string;
  readonly how: 'use' | 'keep';
}

/** What is wrong in one or two sentences, and the ways out that can be pressed. */
export interface Said {
  readonly sentence: string;
  readonly fixes: readonly Fix[];
}

/** What a sentence needs besides the refusal itself. */
export interface SayingContext {
  readonly house: HouseUnits;
  readonly localTime: LocalTime;
}

const use = (text: string, label = `Use ${text}`): Fix => ({ label, text, how: 'use' });
const said = (sentence: string, ...fixes: Fix[]): Said => ({ sentence, fixes });

/** What a form that would change nothing asks for, by the field it falls on. */
const NOTHING_CHANGED: Readonly<Record<string, string>> = {
  words: 'Nothing is said of the taste yet. Choose a word, give a score, or write what you tasted.',
  caption: 'The caption reads so already. Change it, or close this form.',
};

/** Why the book refused an act, in words, with the fix where one value would do. */
export function sayLedgerError(error: LedgerError, context: SayingContext): Said {
  const { house, localTime } = context;
  const much = (ul: number): string => sayVolume(ul, house);
  switch (error.type) {
    case 'NotFound':
      return said(`This ${error.what} is not in the cellar any more. Choose another.`);
    case 'VesselEmpty':
      return said(
        `Vessel ${error.vesselNumber} is empty, so there is nothing in it to take, add to or measure. Choose one that holds something.`,
      );
    case 'VesselNotEmpty':
      return said(
        `Vessel ${error.vesselNumber} holds ${much(error.holdsUl)}. Choose an empty one, or move out what is in it first.`,
      );
    case 'VesselRetired':
      return said(`Vessel ${error.vesselNumber} is retired. Choose one that is in use.`);
    case 'VesselOverdrawn':
      return said(
        `Vessel ${error.vesselNumber} holds ${much(error.heldUl)}, and ${much(error.wantedUl)} is asked of it. At most ${much(error.heldUl)} can go.`,
        ...usableVolume(error.field, error.heldUl, house),
      );
    case 'VesselOverfilled':
      return error.roomUl <= 0
        ? said(
            `Vessel ${error.vesselNumber} is full; ${much(error.wantedUl)} more does not fit. Choose a larger one.`,
          )
        : said(
            `Vessel ${error.vesselNumber} has room for ${much(error.roomUl)}; ${much(error.wantedUl)} does not fit. Choose a larger one, or less.`,
            ...usableVolume(error.field, error.roomUl, house),
          );
    case 'CapacityBelowContents':
      return said(
        `It holds ${much(error.heldUl)} now, more than a capacity of ${much(error.capacityUl)}. Give at least ${much(error.heldUl)}.`,
        ...usableVolume(error.field, error.heldUl, house),
      );
    case 'SameVessel':
      return said('The same vessel stands on both sides. Choose another one.');
    case 'PositionTaken':
      return said(
        `Position ${error.position} is taken by vessel ${error.byVesselNumber}. Choose a free one, or move that vessel first.`,
      );
    case 'PositionOffShelf':
      return error.position <= 0
        ? said(`Say at which position of the shelf: 1 to ${error.positions}.`)
        : said(
            `This shelf has positions 1 to ${error.positions}; ${error.position} is not one of them.`,
            use(String(error.positions)),
          );
    case 'ShelfTooShort':
      return said(
        `A vessel stands at position ${error.highestInUse}, so the shelf cannot end at ${error.positions}. Give at least ${error.highestInUse}, or move that vessel first.`,
        use(String(error.highestInUse)),
      );
    case 'AlreadyTaken':
      return said(
        `The ${error.what} ${error.value} is already taken. Try once more: the next free one is given.`,
      );
    case 'NothingToAdd':
      return said(
        error.field === 'what'
          ? 'Nothing is said to go in. Choose a culture, choose a vessel, or write what was bought.'
          : (NOTHING_CHANGED[error.field] ?? 'This would change nothing. Give an amount that does.'),
      );
    case 'NewBatchIntoOccupied':
      return said(
        `Vessel ${error.vesselNumber} already holds a batch, so what you pour in joins it. For a batch of its own choose an empty vessel; to blend, keep the same batch.`,
      );
    case 'WouldEmpty':
      return said(
        `That is all that vessel ${error.vesselNumber} holds. Leave some in it, or use Draw off and then a transfer.`,
      );
    case 'SameHolder':
      return said(
        error.holder === ''
          ? 'It is in the house already.'
          : `${error.holder} has it already. Leave the name empty when it is back.`,
      );
    case 'TooFewBottles':
      return said(
        error.left === 0
          ? 'No bottle of this lot is left.'
          : `${error.left} of this lot ${error.left === 1 ? 'is' : 'are'} left, and ${error.wanted} are asked for.`,
        ...(error.left === 0 ? [] : [use(String(error.left))]),
      );
    case 'LotShort':
      return said(
        `These bottles hold ${much(error.leftUl)} together; ${much(error.wantedUl)} cannot be lost of it.`,
      );
    case 'MassShort':
      return said(
        `The book counts ${sayMass(error.heldUg, house)} of ${COMPONENT_WORDS[error.component]} in it, and ${sayMass(error.wantedUg, house)} is asked to change. Look at the amounts again, or set what it is made of to what was measured.`,
      );
    case 'TooHeavy':
      return said(
        `That would weigh more than ${sayMass(error.mostUg, house)} in one vessel, which the book cannot count. Look at the amount and its unit again.`,
      );
    case 'RestateImpossible':
      return said(
        error.refusals.length === 1
          ? 'Told so, a later line could not have been. Strike or mend that line with it.'
          : `Told so, ${error.refusals.length} later lines could not have been. Strike or mend those with it.`,
      );
    case 'SameStage':
      return said(`It is in ${STAGE_MARKS[error.stage].name} already. Choose another stage.`);
    case 'SameClosure':
      return said(`It is closed that way already: ${CLOSURE_WORDS[error.closure]}. Choose another.`);
    case 'CultureOwnParent':
      return said('A culture cannot descend from itself. Choose another, or none.');
    case 'InTheFuture':
      return said(
        `${minute(error.happenedAtMs, localTime)} is still to come; it is ${minute(error.nowMs, localTime)} now. The book takes what has happened.`,
        use('now'),
      );
    case 'BeforeItBegan': {
      // The next whole minute, since that is as fine as a time can be typed.
      const text = minute(Math.ceil(error.beganAtMs / 60_000) * 60_000, localTime);
      return said(
        `At ${minute(error.happenedAtMs, localTime)} this was not in the vessel yet: it has been there since ${text}.`,
        use(text),
        use('now'),
      );
    }
    case 'AlreadyStruck':
      return said('This line is struck through already.');
    case 'CannotReverse':
      return said(
        'A line that itself takes another one back cannot be taken back this way. Use Undo or Redo.',
      );
    case 'LaterEntriesRest':
      return said(
        error.entryIds.length === 1
          ? 'A later line rests on this one. Strike that line first.'
          : `${error.entryIds.length} later lines rest on this one. Strike those first, the newest before the others.`,
      );
    case 'NothingToUndo':
      return said('There is nothing left to undo.');
    case 'NothingToRedo':
      return said('There is nothing left to redo.');
    default:
      return assertNever(error);
  }
}

const VOLUME_FIELDS = /^(?:volumeUl|capacityUl|drawnUl|refillUl|parts\.[0-9]+\.volumeUl)$/u;

/** A press that writes the largest volume allowed, for the fields that take a volume and nothing else. */
function usableVolume(field: string, volumeUl: number, house: HouseUnits): readonly Fix[] {
  if (!VOLUME_FIELDS.test(field)) return [];
  return volumeUl <= 0 ? [] : [use(exactVolumeText(volumeUl, house))];
}

const SAMPLES: Readonly<Record<QuantityKind, string>> = {
  gravity: '1.048 or 12 Bx',
  acidity: '5.2 % or 52 g/L',
  pH: '3.41',
  volume: '4.5 L, 500 ml or 2 qt',
  temperature: '21 C or 70 F',
  mass: '5 g or 3 lb',
  freeSulfite: '30 mg/L',
  alcohol: '6.2 %',
  salt: '2.5 %',
};
const A_KIND: Readonly<Record<QuantityKind, string>> = {
  gravity: 'a gravity',
  acidity: 'an acidity',
  pH: 'a pH',
  volume: 'a volume',
  temperature: 'a temperature',
  mass: 'a mass',
  freeSulfite: 'a free SO2',
  alcohol: 'an alcohol',
  salt: 'a salt content',
};

/**
 * Why a text was not taken as a quantity. `typed` is that text, for the button that keeps it; `mayKeep` says whether
 * the book would take the value understood, however unlikely it looks.
 */
export function sayQuantityError(
  error: QuantityError,
  house: HouseUnits,
  typed: string,
  mayKeep = true,
): Said {
  const { kind } = error;
  switch (error.type) {
    case 'Empty':
      return said(`Type ${A_KIND[kind]}, for instance ${SAMPLES[kind]}.`);
    case 'TooLong':
      return said(
        `That is ${error.length} signs long; ${A_KIND[kind]} is at most ${error.longest}. Type it shorter, for instance ${SAMPLES[kind]}.`,
      );
    case 'NotANumber':
      return said(
        `“${shortened(error.text)}” is not read as ${A_KIND[kind]}. Type a number, for instance ${SAMPLES[kind]}.`,
      );
    case 'UnknownUnit':
      return said(
        `“${shortened(error.unit)}” is not a unit of ${QUANTITY_NAMES[kind]}. ${error.known.length === 1 ? 'The unit is' : 'Units are'} ${listed(error.known)}.`,
      );
    case 'UnitMissing':
      return said(
        `“${shortened(typed)}” of what? Write the unit too, for instance ${SAMPLES[kind]}.`,
        ...error.suggestions.map(({ text }) => use(text)),
      );
    case 'Ambiguous':
      return said(
        `“${shortened(typed)}” may be ${error.readings.map((r) => meant(r.text, sayValue(r.understood, house))).join(' or ')}. Which is meant?`,
        ...error.readings.map(({ text }) => use(text)),
      );
    case 'Implausible':
      return implausible(error, house, typed, mayKeep);
    default:
      return assertNever(error);
  }
}

function implausible(
  error: Extract<QuantityError, { type: 'Implausible' }>,
  house: HouseUnits,
  typed: string,
  mayKeep: boolean,
): Said {
  const { kind, suggestions } = error;
  const [first] = suggestions;
  const fixes = suggestions.map(({ text }) => use(text));
  const instead = first === undefined ? 'Check the number and its unit.' : `Did you mean ${first.text}?`;
  const range = `${boundText(kind, error.low, error.unit, house)} to ${boundText(kind, error.high, error.unit, house)}`;
  if (error.understood === null || !mayKeep) {
    return said(
      `${shortened(typed)} cannot stand as ${A_KIND[kind]}; it goes from ${range}. ${instead}`,
      ...fixes,
    );
  }
  const outside = OUTSIDE_WORDS[kind] ?? `is outside ${range}, where ${QUANTITY_NAMES[kind]} is expected`;
  return said(`${shortened(typed)} ${outside}. ${instead}`, ...fixes, {
    label: `Keep ${shortened(typed)}`,
    text: typed,
    how: 'keep',
  });
}

const OUTSIDE_WORDS: Partial<Record<QuantityKind, string>> = {
  gravity: 'is outside 0.980 to 1.200 SG (0 to 50 °Bx), where must, wine and vinegar lie',
};

function boundText(kind: QuantityKind, bound: number, unit: string, house: HouseUnits): string {
  switch (kind) {
    case 'volume':
      return sayVolume(bound, house);
    case 'mass':
      return sayMass(bound, house);
    case 'temperature':
      return sayTemperature(bound, house);
    case 'gravity':
      return unit === 'SG' ? bound.toFixed(3) : shownText({ number: trimmed(bound, 1), unit });
    default:
      return shownText({ number: trimmed(bound, 2), unit });
  }
}

function meant(text: string, understood: string): string {
  return understood.replaceAll('\u00A0', ' ') === text ? text : `${text} (${understood})`;
}

/** Why a text was not taken as a moment. */
export function sayWhenError(error: WhenError, localTime: LocalTime): Said {
  switch (error.type) {
    case 'NotAWhen':
      return said(
        `“${shortened(error.text)}” is not read as a time. Write now, yesterday 18:00, 3 d ago, or 2026-11-25 14:30.`,
        use('now'),
      );
    case 'NoSuchDay':
      return said(`The calendar has no such day as “${shortened(error.text)}”.`);
    case 'NoSuchTime':
      return said(
        `The clock skips “${shortened(error.text)}”: summer time begins that night. Give a time an hour later.`,
      );
    case 'Ambiguous': {
      const ways = error.readings.map(({ when }) => {
        const civil = localTime.localOf(when.atMs);
        const day = `${civil.day} ${MONTHS[civil.month - 1] ?? ''} ${civil.year}`;
        const iso = isoMinute(civil);
        return { day, text: when.precision === 'minute' ? iso : iso.slice(0, 10) };
      });
      return said(
        `This may be ${ways.map(({ day }) => day).join(' or ')}. Which is meant?`,
        ...ways.map(({ day, text }) => use(text, day)),
      );
    }
    default:
      return assertNever(error);
  }
}

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
];

/**
 * Why a chalked line of readings was not taken. `line` is what was typed; a fix gives back the whole line with only
 * the faulty piece replaced.
 */
export function sayChalkError(error: ChalkError, house: HouseUnits, line: string): Said {
  switch (error.type) {
    case 'NotAChalk':
      return said('Type a number with its unit, for instance 1.012 19C, 4.3 % or pH 3.4.');
    case 'ReadingNotUnderstood': {
      if (error.error === null) {
        return said(
          `Nothing says what “${shortened(error.text)}” measures. Add its unit, for instance 19 C, 4.3 %, or its name, as in pH 3.4.`,
        );
      }
      const inner = sayQuantityError(error.error, house, error.text, false);
      const at = line.indexOf(error.text);
      return {
        sentence: inner.sentence,
        fixes:
          at < 0 ? [] : inner.fixes.map((fix) => ({ ...fix, text: spliced(line, at, error.text, fix.text) })),
      };
    }
    case 'SameQuantityTwice':
      return said(`This gives the ${QUANTITY_NAMES[error.kind]} twice. Leave one out.`);
    default:
      return assertNever(error);
  }
}

function spliced(line: string, at: number, faulty: string, text: string): string {
  return line.slice(0, at) + text + line.slice(at + faulty.length);
}

function minute(atMs: number, localTime: LocalTime): string {
  return isoMinute(localTime.localOf(atMs));
}

/** Long or many-lined typing is quoted by its beginning. */
function shortened(text: string): string {
  const line = text.trim().replaceAll(/\s+/gu, ' ');
  return line.length <= 40 ? line : `${line.slice(0, 39).trimEnd()}…`;
}

function listed(words: readonly string[]): string {
  const all = words.slice(0, 12);
  const last = all.at(-1) ?? '';
  return all.length < 2 ? last : `${all.slice(0, -1).join(', ')} and ${last}`;
}
