import { METRIC_HOUSE, type HouseUnits } from '#core/quantities/house-units.ts';

export { METRIC_HOUSE };
export const US_HOUSE: HouseUnits = { ...METRIC_HOUSE, volume: 'us', temperature: 'F' };
