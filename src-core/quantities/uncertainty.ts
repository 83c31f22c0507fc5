/** A quantity that a household measures, as the rules name it. */
export type MeasuredQuantity =
  | 'acidity'
  | 'pH'
  | 'gravity'
  | 'alcohol'
  | 'temperature'
  | 'mass'
  | 'volume'
  | 'carbonDioxide'
  | 'sulfite'
  | 'salt';

/** The ways of measuring that carry a default error. */
export type Method =
  | 'phMeterTwoBuffersToday'
  | 'phMeterWithinAWeek'
  | 'phStripNarrow'
  | 'phStripWide'
  | 'taSyringeKit'
  | 'taBurette'
  | 'taLaboratory'
  | 'hydrometer'
  | 'hydrometerNarrow'
  | 'refractometer'
  | 'alcoholFromGravities'
  | 'alcoholLaboratory'
  | 'ebulliometer'
  | 'thermometer'
  | 'kitchenScale'
  | 'jugOrMark'
  | 'roomCarbonDioxide'
  | 'sulfiteKit';

export interface MethodError {
  readonly quantity: MeasuredQuantity;
  /** Expanded uncertainty (about 95 %) when the keeper gives none: the larger of the two parts, or their sum. */
  readonly defaultAbsolute: number;
  readonly defaultRelative: number;
  readonly combine: 'larger' | 'sum';
  /** The smallest U the method is credited with. */
  readonly floorAbsolute: number;
  readonly floorRelative: number;
  readonly unit: string;
}

/**
 * Default and smallest expanded uncertainty of each method. These are policy, set wide on purpose; they are not taken
 * from any one publication.
 */
export const METHOD_ERRORS: Readonly<Record<Method, MethodError>> = {
  phMeterTwoBuffersToday: absolute('pH', 0.1, 0.05, 'pH'),
  phMeterWithinAWeek: absolute('pH', 0.2, 0.2, 'pH'),
  phStripNarrow: absolute('pH', 0.3, 0.3, 'pH'),
  phStripWide: absolute('pH', 0.5, 0.5, 'pH'),
  taSyringeKit: {
    quantity: 'acidity',
    defaultAbsolute: 0.3,
    defaultRelative: 0.07,
    combine: 'larger',
    floorAbsolute: 0.2,
    floorRelative: 0,
    unit: 'g/100 mL',
  },
  taBurette: absolute('acidity', 0.15, 0.1, 'g/100 mL'),
  taLaboratory: absolute('acidity', 0.05, 0.02, 'g/100 mL'),
  hydrometer: absolute('gravity', 0.002, 0.001, 'SG'),
  hydrometerNarrow: absolute('gravity', 0.001, 0.001, 'SG'),
  refractometer: absolute('gravity', 0.3, 0.2, '°Bx'),
  alcoholFromGravities: absolute('alcohol', 0.5, 0.3, '% vol'),
  alcoholLaboratory: absolute('alcohol', 0.1, 0.1, '% vol'),
  ebulliometer: absolute('alcohol', 0.3, 0.1, '% vol'),
  thermometer: absolute('temperature', 1, 0.5, '°C'),
  kitchenScale: {
    quantity: 'mass',
    defaultAbsolute: 2,
    defaultRelative: 0.01,
    combine: 'larger',
    floorAbsolute: 1,
    floorRelative: 0,
    unit: 'g',
  },
  jugOrMark: {
    quantity: 'volume',
    defaultAbsolute: 0,
    defaultRelative: 0.03,
    combine: 'larger',
    floorAbsolute: 0,
    floorRelative: 0.01,
    unit: 'L',
  },
  roomCarbonDioxide: {
    quantity: 'carbonDioxide',
    defaultAbsolute: 75,
    defaultRelative: 0.05,
    combine: 'sum',
    floorAbsolute: 50,
    floorRelative: 0,
    unit: 'ppm',
  },
  sulfiteKit: absolute('sulfite', 10, 5, 'mg/L'),
};

function absolute(quantity: MeasuredQuantity, byDefault: number, floor: number, unit: string): MethodError {
  return {
    quantity,
    defaultAbsolute: byDefault,
    defaultRelative: 0,
    combine: 'larger',
    floorAbsolute: floor,
    floorRelative: 0,
    unit,
  };
}

/** U of a method at a value when the keeper gave none, in the method's unit. */
export function defaultUncertainty(method: Method, value: number): number {
  const of = METHOD_ERRORS[method];
  const relative = Math.abs(value) * of.defaultRelative;
  return of.combine === 'sum' ? of.defaultAbsolute + relative : Math.max(of.defaultAbsolute, relative);
}

/** The smallest U a method is credited with at a value. */
export function smallestUncertainty(method: Method, value: number): number {
  const of = METHOD_ERRORS[method];
  return Math.max(of.floorAbsolute, Math.abs(value) * of.floorRelative);
}

/**
 * The smallest U credited where it is not known how a quantity was measured: the largest floor of its methods, in the unit of
 * the quantity. The refractometer is left out, whose floor is in °Bx: at 0.2 °Bx, some 0.0008 SG, it is the finer one.
 */
export function smallestUncertaintyOfAny(quantity: MeasuredQuantity, value: number): number {
  const methods = Object.keys(METHOD_ERRORS) as Method[];
  const ofIts = methods.filter((method) => METHOD_ERRORS[method].quantity === quantity);
  return Math.max(
    0,
    ...ofIts
      .filter((method) => method !== 'refractometer')
      .map((method) => smallestUncertainty(method, value)),
  );
}

/**
 * The U to use for a measurement (rule MEAS-02): the keeper's own when it is not below the method's floor, otherwise
 * the default of the method, marked as such. Null when neither a usable U nor a method is known.
 */
export function effectiveUncertainty(given: {
  readonly value: number;
  readonly givenUncertainty: number | null;
  readonly method: Method | null;
}): { readonly uncertainty: number; readonly from: 'keeper' | 'default' } | null {
  const { value, givenUncertainty, method } = given;
  const usable = givenUncertainty !== null && Number.isFinite(givenUncertainty) && givenUncertainty > 0;
  if (method === null) return usable ? { uncertainty: givenUncertainty, from: 'keeper' } : null;
  if (usable && givenUncertainty >= smallestUncertainty(method, value)) {
    return { uncertainty: givenUncertainty, from: 'keeper' };
  }
  return { uncertainty: defaultUncertainty(method, value), from: 'default' };
}
