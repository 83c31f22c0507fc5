import type { Ingredient } from '#core/ledger/act.ts';
import { isoMinute, type LocalTime } from '#core/quantities/civil-time.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { parseCost } from '#core/quantities/parse-cost.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import { exactVolumeText, trimmed } from '../words/quantity-words.ts';

export interface Refilling {
  /** What was typed when the line was written, by field. */
  readonly typed: Readonly<Record<string, string>>;
  readonly house: HouseUnits;
  readonly currency: string;
  readonly localTime: LocalTime;
}

/**
 * The fields of a form filled in from a line: as typed where that is still read as the very same value, else written so
 * that reading it back gives it.
 */
export class RefillFields {
  readonly texts: Record<string, string> = {};
  readonly given: Refilling;

  constructor(given: Refilling) {
    this.given = given;
  }

  text(field: string, text: string | null): void {
    this.texts[field] = text ?? '';
  }

  texted(fields: Readonly<Record<string, string | null>>): void {
    for (const [field, text] of Object.entries(fields)) this.text(field, text);
  }

  yesNo(field: string, said: boolean | null): void {
    this.texts[field] = said === null ? '' : said ? 'yes' : 'no';
  }

  quantity(kind: QuantityKind, field: string, value: number | null): void {
    const typed = this.given.typed[field];
    if (value === null) this.texts[field] = '';
    else if (typed !== undefined && this.reads(kind, typed, value)) this.texts[field] = typed;
    else this.texts[field] = exactText(kind, value, this.given.house);
  }

  /** A volume that may be none, which is an empty field. */
  volume(field: string, volumeUl: number): void {
    this.quantity('volume', field, volumeUl === 0 ? null : volumeUl);
  }

  /** A plain number in a field that takes one, such as millilitres. */
  number(field: string, value: number | null): void {
    const typed = this.given.typed[field]?.replace(',', '.');
    const same = typed !== undefined && value !== null && Number.parseFloat(typed) === value;
    this.texts[field] = same ? (this.given.typed[field] ?? '') : value === null ? '' : String(value);
  }

  when(field: string, atMs: number | null): void {
    this.texts[field] = atMs === null ? '' : isoMinute(this.given.localTime.localOf(atMs));
  }

  cost(field: string, costHundredths: number | null | undefined): void {
    const typed = this.given.typed[field];
    if (costHundredths == null) this.texts[field] = '';
    else {
      const read = typed === undefined ? null : parseCost(typed, this.given.currency);
      const same = read?.ok === true && read.value === costHundredths;
      this.texts[field] = same ? (typed ?? '') : (costHundredths / 100).toFixed(2);
    }
  }

  /** An ingredient's amount is kept as written; where it was not, or reads otherwise by now, what was understood is written out. */
  amount(field: string, { amountTyped, massUg }: Ingredient, volumeUl = 0): void {
    const asVolume = this.valueOf('volume', amountTyped);
    const asMass = asVolume === null ? this.valueOf('mass', amountTyped) : null;
    const mass = massUg !== null && massUg !== asMass;
    const volume = volumeUl > 0 && massUg === null && (amountTyped === '' || asVolume !== null);
    if (mass) this.texts[field] = exactText('mass', massUg, this.given.house);
    else if (volume && asVolume !== volumeUl)
      this.texts[field] = exactText('volume', volumeUl, this.given.house);
    else this.texts[field] = amountTyped;
  }

  reads(kind: QuantityKind, text: string, value: number): boolean {
    return this.valueOf(kind, text) === value;
  }

  valueOf(kind: QuantityKind, text: string): number | null {
    const read = parseQuantity(kind, text, this.given.house);
    if (read.ok) return read.value.value;
    return read.error.type === 'Implausible' ? read.error.understoodValue : null;
  }
}

const UNIT: Readonly<Record<Exclude<QuantityKind, 'volume' | 'mass'>, string>> = {
  gravity: ' SG',
  acidity: ' %',
  pH: '',
  temperature: ' C',
  freeSulfite: ' mg/L',
  alcohol: ' %',
  salt: ' %',
};

function exactText(kind: QuantityKind, value: number, house: HouseUnits): string {
  if (kind === 'volume') return exactVolumeText(value, house);
  if (kind === 'mass') {
    return value >= 1e9 ? `${trimmed(value / 1e9, 9)} kg` : `${trimmed(value / 1e6, 6)} g`;
  }
  return `${value}${UNIT[kind]}`;
}
