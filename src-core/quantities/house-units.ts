/** The units a household reads in. They decide what a bare number means and how a value is shown. */
export interface HouseUnits {
  readonly volume: 'metric' | 'us';
  readonly temperature: 'C' | 'F';
  readonly gravity: 'SG' | 'Bx';
}

export const METRIC_HOUSE: HouseUnits = { volume: 'metric', temperature: 'C', gravity: 'SG' };
