import type { Reason, Evidence } from '../rule.ts';
import type { SourceId } from '../sources.ts';

/** A rule that decides whether a number may be used at all. It speaks through the inspection of a measurement. */
export interface MeasurementRule {
  readonly id: string;
  readonly reasons: readonly Reason[];
  readonly sourceIds: readonly SourceId[];
  readonly evidence: readonly Evidence[];
}

/** Rules MEAS-01 to MEAS-05, 09 and 13. The arithmetic is in `measurement.ts` and `limit.ts`. */
export const MEASUREMENT_RULES: readonly MeasurementRule[] = [
  {
    id: 'MEAS-01',
    reasons: ['met', 'straddles', 'readings_disagree'],
    sourceIds: ['POLICY', 'S17'],
    evidence: ['policy'],
  },
  {
    id: 'MEAS-02',
    reasons: ['met', 'default_uncertainty', 'method'],
    sourceIds: ['POLICY'],
    evidence: ['policy'],
  },
  {
    id: 'MEAS-03',
    reasons: ['met', 'stale_event'],
    sourceIds: ['POLICY', 'S4'],
    evidence: ['policy', 'seen'],
  },
  {
    id: 'MEAS-04',
    reasons: ['met', 'ageing', 'stale_age'],
    sourceIds: ['S24', 'POLICY', 'COMMON'],
    evidence: ['seen', 'policy', 'common practice'],
  },
  {
    id: 'MEAS-05',
    reasons: ['met', 'converted', 'fixed_acid_unknown', 'basis'],
    sourceIds: ['S29', 'CHEM'],
    evidence: ['seen'],
  },
  { id: 'MEAS-09', reasons: ['met', 'implausible'], sourceIds: ['POLICY'], evidence: ['policy'] },
  {
    id: 'MEAS-13',
    reasons: ['met', 'calculated_only', 'guessed'],
    sourceIds: ['POLICY'],
    evidence: ['policy'],
  },
];
