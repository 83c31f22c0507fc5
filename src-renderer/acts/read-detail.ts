import type { ReadingDetail, TitrationDetail } from '#core/ledger/act.ts';
import type { FormReader } from './form-reader.ts';
import { ALCOHOL_METHOD_WORDS, SAMPLE_WORDS } from './method-words.ts';

/** How values were found, and values few keepers take: all of it may stay empty. */
export const DETAIL_FIELDS = {
  acidityBasis: '',
  fixedAcidGramsPer100Ml: '',
  gravityUncertainty: '',
  phUncertainty: '',
  phSampleFrom: '',
  phEquilibriumShown: '',
  alcoholMethod: '',
  alcoholUncertainty: '',
  totalSulfiteMgPerL: '',
  saltPercent: '',
} as const;

const PLAIN = { units: /^(?:sg|ph|%|% ?vol)?$/iu, sample: '0.002' };
const MG_PER_L = { units: /^(?:mg ?\/ ?l|ppm)$/iu, sample: '60 mg/L' };
/** The largest error and the most total SO2 that the book takes. */
const MOST = { gravityUncertainty: 0.1, phUncertainty: 5, alcoholUncertainty: 10, totalSulfiteMgPerL: 5000 };

/** What the detail belongs to: a method or an error is only kept with its value. */
interface Found {
  readonly gravitySg: number | null;
  readonly ph: number | null;
  readonly acidityGramsPer100Ml: number | null;
  readonly alcoholPercentVolume: number | null;
  readonly titration: TitrationDetail | null;
  readonly saltPercent: number | null;
}

/** The detail of a reading, or null when nothing of it was said. */
export function readDetail(read: FormReader, found: Found): ReadingDetail | null {
  const { gravitySg, ph, acidityGramsPer100Ml, alcoholPercentVolume, titration, saltPercent } = found;
  const basis = read.choiceOrNone('acidityBasis', { 'w/v': true, 'w/w': true });
  const fixed = read.quantity('acidity', 'fixedAcidGramsPer100Ml')?.value ?? null;
  const gravityError = error(read, 'gravityUncertainty');
  const phError = error(read, 'phUncertainty');
  const alcoholError = error(read, 'alcoholUncertainty');
  const equilibrium = read.raw('phEquilibriumShown');
  if (saltPercent !== null && saltPercent > 40) {
    read.problem('saltPercent', 'No brine holds more than 40 % salt. Check the number and its unit.');
  }
  const detail: ReadingDetail = {
    titration,
    acidityBasis: acidityGramsPer100Ml === null ? null : basis,
    fixedAcidGramsPer100Ml: acidityGramsPer100Ml === null ? null : fixed,
    gravityUncertainty: gravitySg === null ? null : gravityError,
    phUncertainty: ph === null ? null : phError,
    phSampleFrom: ph === null ? null : read.choiceOrNone('phSampleFrom', SAMPLE_WORDS),
    phEquilibriumShown: ph === null || equilibrium === '' ? null : equilibrium === 'yes',
    alcoholMethod:
      alcoholPercentVolume === null ? null : read.choiceOrNone('alcoholMethod', ALCOHOL_METHOD_WORDS),
    alcoholUncertainty: alcoholPercentVolume === null ? null : alcoholError,
    totalSulfiteMgPerL: totalSulfite(read),
    saltPercent,
  };
  return Object.values(detail).every((value) => value === null) ? null : detail;
}

function error(
  read: FormReader,
  field: 'gravityUncertainty' | 'phUncertainty' | 'alcoholUncertainty',
): number | null {
  const value = read.number(field, PLAIN);
  if (value === null) return null;
  if (value > 0 && value <= MOST[field]) return value;
  read.problem(field, `An error is more than 0 and at most ${MOST[field]}. Check the decimal mark.`);
  return null;
}

function totalSulfite(read: FormReader): number | null {
  const value = read.number('totalSulfiteMgPerL', MG_PER_L);
  if (value === null) return null;
  if (value >= 0 && value <= MOST.totalSulfiteMgPerL) return value;
  read.problem('totalSulfiteMgPerL', 'Total SO2 is between 0 and 5,000 mg/L. Check the number and its unit.');
  return null;
}
