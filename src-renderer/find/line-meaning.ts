import type { HouseUnits } from '#core/quantities/house-units.ts';
import { plainTyping } from '#core/quantities/number-text.ts';
import { parseChalk } from '#core/quantities/parse-chalk.ts';
import type { QuantityError, Understood } from '#core/quantities/understood.ts';
import { sayChalkError, sayQuantityError, type Said } from '../words/error-words.ts';
import { bookTakes } from './chalked-reading.ts';

/** What a line in the one field is taken for, before the cellar has been asked. */
export type LineMeaning =
  | { readonly type: 'nothing' }
  /** A scanned label: `UC:` and the id of a batch, a vessel or a bottling. */
  | { readonly type: 'label'; readonly code: string }
  | { readonly type: 'chalk'; readonly vesselCode: string; readonly readings: readonly Understood[] }
  /** A vessel and something about it that is not yet plain enough to be written. A fix holds the whole line anew. */
  | { readonly type: 'unclearChalk'; readonly vesselCode: string; readonly said: Said }
  | { readonly type: 'find'; readonly text: string };

/**
 * Takes a line for a label, a chalked reading or a search. `kept` are the pieces of the line that look unlikely and
 * are to be kept all the same, as `Said` offered them.
 */
export function lineMeaning(line: string, house: HouseUnits, kept: readonly string[] = []): LineMeaning {
  const plain = plainTyping(line);
  if (plain === '') return { type: 'nothing' };
  const label = /^uc:\s*(.*)$/iu.exec(plain);
  if (label) return { type: 'label', code: (label[1] ?? '').trim() };
  return chalkMeaning(plain, house, kept);
}

function chalkMeaning(plain: string, house: HouseUnits, kept: readonly string[]): LineMeaning {
  const chalk = parseChalk(plain, house);
  if (chalk.ok) return { type: 'chalk', vesselCode: chalk.value.vesselCode, readings: chalk.value.readings };
  const { error } = chalk;
  if (error.type === 'NotAChalk') return { type: 'find', text: plain };
  const { vesselCode } = error;
  if (error.type === 'SameQuantityTwice' || error.error === null) {
    return { type: 'unclearChalk', vesselCode, said: sayChalkError(error, house, plain) };
  }
  const piece = error.text;
  const unlikely = unlikelyOf(error.error);
  if (unlikely !== null && kept.includes(piece))
    return withPieceKept({ plain, piece, unlikely, house, kept });
  const said = sayQuantityError(error.error, house, piece, unlikely !== null);
  const fixes = said.fixes.map((fix) =>
    fix.how === 'keep' ? fix : { ...fix, text: replacePiece(plain, piece, fix.text) },
  );
  return { type: 'unclearChalk', vesselCode, said: { sentence: said.sentence, fixes } };
}

/** The rest of the line is read without the kept piece, whose value then joins what was read. */
function withPieceKept(given: {
  readonly plain: string;
  readonly piece: string;
  readonly unlikely: Understood;
  readonly house: HouseUnits;
  readonly kept: readonly string[];
}): LineMeaning {
  const { plain, piece, unlikely, house, kept } = given;
  const rest = plainTyping(replacePiece(plain, piece, ''));
  const vesselCode = chalkedVessel(plain, house);
  if (vesselCode === null) return { type: 'find', text: plain };
  if (!rest.includes(' ')) return { type: 'chalk', vesselCode, readings: [unlikely] };
  const others = chalkMeaning(rest, house, kept);
  if (others.type !== 'chalk') return others;
  if (others.readings.some(({ kind }) => kind === unlikely.kind)) {
    const error = { type: 'SameQuantityTwice', vesselCode, kind: unlikely.kind } as const;
    return { type: 'unclearChalk', vesselCode, said: sayChalkError(error, house, plain) };
  }
  return { ...others, readings: [unlikely, ...others.readings] };
}

function chalkedVessel(plain: string, house: HouseUnits): string | null {
  const chalk = parseChalk(plain, house);
  if (chalk.ok) return chalk.value.vesselCode;
  return chalk.error.type === 'NotAChalk' ? null : chalk.error.vesselCode;
}

/** The value of an unlikely amount, when the book could hold it all the same. */
function unlikelyOf(error: QuantityError): Understood | null {
  if (error.type !== 'Implausible' || error.understood === null) return null;
  return bookTakes(error.understood) ? error.understood : null;
}

/** Replaces the last place where the piece stands, since the vessel comes first and may look alike. */
function replacePiece(line: string, piece: string, by: string): string {
  const at = line.lastIndexOf(piece);
  return at < 0 ? line : `${line.slice(0, at)}${by}${line.slice(at + piece.length)}`;
}
