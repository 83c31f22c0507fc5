import { titratableAcidity } from '#core/acid/titration.ts';
import type { ReadingDetail, ReadingValues } from '#core/ledger/act.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import { readLine, READING_FIELDS } from '../acts/build-reading.ts';
import { TITRATE_FIELDS, TITRATION_STEPS } from '../acts/build-titration.ts';
import { NOTHING_SAID } from '../acts/titration-work.ts';
import type { RefillFields } from './refill-fields.ts';

/** What was read, as the form of a reading has it: the chalked line where there was one, every value in its field else. */
export function refillReading(fields: RefillFields, values: ReadingValues): void {
  fields.texted(READING_FIELDS);
  const detail = values.detail ?? NOTHING_SAID;
  const titrated = refillTitration(fields, values, detail);
  const chalked = refillLine(fields, values);
  const quantity = (kind: QuantityKind, field: string, value: number | null): void => {
    if (!chalked.includes(kind)) fields.quantity(kind, field, value);
  };
  quantity('gravity', 'gravitySg', values.gravitySg);
  quantity('temperature', 'temperatureCelsius', values.temperatureCelsius);
  quantity('pH', 'ph', values.ph);
  if (!titrated) quantity('acidity', 'acidityGramsPer100Ml', values.acidityGramsPer100Ml);
  quantity('volume', 'volumeUl', values.volumeUl);
  quantity('freeSulfite', 'freeSulfiteMgPerL', values.freeSulfiteMgPerL);
  quantity('alcohol', 'alcoholPercentVolume', values.alcoholPercentVolume);
  quantity('salt', 'saltPercent', detail.saltPercent);
  fields.quantity('acidity', 'acidityUncertainty', values.acidityUncertainty);
  fields.quantity('acidity', 'fixedAcidGramsPer100Ml', detail.fixedAcidGramsPer100Ml);
  fields.texted({
    gravityInstrument:
      values.gravitySg === null ? READING_FIELDS.gravityInstrument : values.gravityInstrument,
    phMethod: values.phMethod,
    acidityAs: values.acidityAs,
    acidityMethod: values.acidityMethod,
    acidityBasis: detail.acidityBasis,
    phSampleFrom: detail.phSampleFrom,
    alcoholMethod: detail.alcoholMethod,
    taste: values.taste,
  });
  fields.yesNo('phEquilibriumShown', detail.phEquilibriumShown);
  fields.number('gravityUncertainty', detail.gravityUncertainty);
  fields.number('phUncertainty', detail.phUncertainty);
  fields.number('alcoholUncertainty', detail.alcoholUncertainty);
  fields.number('totalSulfiteMgPerL', detail.totalSulfiteMgPerL);
}

/** Puts the chalked line back where all of it still reads as what the line of the book says; gives the kinds it holds. */
function refillLine(fields: RefillFields, values: ReadingValues): readonly QuantityKind[] {
  const text = fields.given.typed['quick'];
  if (text === undefined) return [];
  const line = readLine(text, fields.given.house);
  if (!line.ok) return [];
  const says: Partial<Record<QuantityKind, number | null>> = {
    gravity: values.gravitySg,
    temperature: values.temperatureCelsius,
    pH: values.ph,
    acidity: values.acidityGramsPer100Ml,
    volume: values.volumeUl,
    freeSulfite: values.freeSulfiteMgPerL,
    alcohol: values.alcoholPercentVolume,
    salt: values.detail?.saltPercent ?? null,
  };
  if (!line.value.every(({ kind, value }) => says[kind] === value)) return [];
  fields.text('quick', text);
  return line.value.map(({ kind }) => kind);
}

/** A titration of one reading with nothing more said of it, as the form of a reading asks for it. */
function refillTitration(fields: RefillFields, values: ReadingValues, { titration }: ReadingDetail): boolean {
  const [baseMl] = titration?.titrantMl ?? [];
  if (titration === null || baseMl === undefined || values.acidityAs === null) return false;
  const { sampleMl, normality, blankMl, titrantMl, ...said } = titration;
  const isPlain =
    blankMl === 0 && titrantMl.length === 1 && Object.values(said).every((each) => each === null);
  const worked = titratableAcidity({ baseMl, normality, sampleMl, acid: values.acidityAs });
  if (!isPlain || !worked.ok || worked.value !== values.acidityGramsPer100Ml) return false;
  fields.number('titrationBaseMl', baseMl);
  fields.number('titrationNormality', normality);
  fields.number('titrationSampleMl', sampleMl);
  return true;
}

/** True for a reading that the titration form asks for whole: an acidity found by titration, and nothing beside it. */
export function isTitrated(values: ReadingValues): boolean {
  const { detail, acidityMethod, gravitySg, temperatureCelsius, ph, volumeUl } = values;
  const titration = detail?.titration ?? null;
  if (titration === null || titration.endPoint === null || titration.titrantMl.length > 4) return false;
  if (acidityMethod !== 'syringeKit' && acidityMethod !== 'burette') return false;
  const beside = [gravitySg, temperatureCelsius, ph, volumeUl, values.freeSulfiteMgPerL];
  const more = [detail?.saltPercent, detail?.totalSulfiteMgPerL, values.alcoholPercentVolume];
  return [...beside, ...more].every((value) => value == null);
}

/** A titration walked through step by step, at its last step. */
export function refillTitrated(fields: RefillFields, values: ReadingValues): void {
  fields.texted(TITRATE_FIELDS);
  const detail = values.detail ?? NOTHING_SAID;
  const { titration } = detail;
  if (titration === null) return;
  const usual = titration.normality === 0.1 || titration.normality === 0.2;
  fields.texted({
    step: String(TITRATION_STEPS.length - 1),
    kit: values.acidityMethod,
    normality: usual ? String(titration.normality) : 'other',
    acid: values.acidityAs,
    endPoint: titration.endPoint,
    note: values.taste,
  });
  fields.number('normalityOther', usual ? null : titration.normality);
  fields.number('sampleMl', titration.sampleMl);
  fields.number('blankMl', titration.blankMl === 0 ? null : titration.blankMl);
  fields.quantity('acidity', 'fixedAcid', detail.fixedAcidGramsPer100Ml);
  fields.yesNo('fizzySample', titration.fizzySample);
  fields.yesNo('degassed', titration.degassed);
  fields.yesNo('darkSample', titration.darkSample);
  fields.yesNo('baseNewlyOpened', titration.baseNewlyOpened);
  fields.when('baseCheckedAtMs', titration.baseCheckedAtMs);
  fields.when('baseBoughtAtMs', titration.baseBoughtAtMs);
  titration.titrantMl.forEach((ml, i) => fields.number(`titrant${i + 1}`, ml));
}
