/**
 * What must be said beside a result of the bench, by the hazard or the limit of the method, with the safety rule that says it
 * where there is one. A reckoning never clears a rule (MEAS-13); these are the sentences that go with it.
 */
export const CAUTIONS = [
  /** MEAS-14: losing alcohol and gaining acid both raise the hydrometer. */
  'gravityTellsNothingOfVinegar',
  /** Far from its own temperature a hydrometer is corrected with ±0.001 more. */
  'bringSampleToTwentyDegrees',
  /** MEAS-02: no error was given, or one smaller than the method can have. */
  'errorTakenFromMethod',
  /** A tenth and more of the °Brix of a fruit juice is not sugar. */
  'brixIsNotSugar',
  /** MEAS-14: no one relation of refractometer and alcohol fits all liquids. */
  'refractometerAfterYeast',
  /** MEAS-13. */
  'worksOutNotMeasured',
  /** Practice strays from any plan yield. */
  'plansAreRanges',
  /** Volatile acid weighs into the density that Tabarié's relation takes for extract. */
  'volatileAcidCounts',
  /** HON-01. */
  'honeyNotForInfants',
  /** Yeast tires in a must this strong; sugar goes in by parts. Common practice, no source. */
  'addSugarInParts',
  /** VIN-02. */
  'measureAgainAfterWater',
  /** CAN-01. */
  'neverForCanning',
  /** MEAS-06. */
  'hydroxideNotChecked',
  'hydroxideTooOld',
  'shakeOutTheGas',
  'colourHidesTheEndPoint',
  /** CLN-03. */
  'hydroxideBurnsEyes',
  /** One of the replicate readings stands apart. */
  'oneReadingStandsApart',
  'readingsScatter',
  /** Total acidity of wine is titrated to pH 7.0 by the OIV, vinegar to 8.2. */
  'wineEndPoint',
  /** MEAS-05: fruit acid counts. */
  'fruitAcidCounts',
  /** VIN-01 on the low end of a forecast. */
  'mayFallShortOfVinegar',
  'totalConcentrationFell',
  'acidityFell',
  'alcoholNearlyGone',
  'moreAcidThanPossible',
  /** Acetification needs air: cloth, not a lid. Common practice, no source. */
  'clothNotLid',
  /** MEAS-11. */
  'phIsNotStrength',
  /** WIN-02. */
  'sulfiteGas',
  'sulfiteMayHinderVinegar',
  'sulfiteStopsVinegar',
  /** WIN-01. */
  'declareSulfite',
  /** Part of what goes in binds at once. Common practice, no source. */
  'someSulfiteBinds',
  'alcoholBelowAdvice',
  'alcoholAboveAdvice',
  'moreSeedThanUsual',
  'lessSeedThanUsual',
  'baseIsAcidEnough',
  /** Heated or filtered vinegar holds no living bacteria. Common practice, no source. */
  'seedMustBeAlive',
  /** CID-01. */
  'noMouldyFruit',
  /** Figures of common practice, to be replaced by one's own. */
  'commonPracticeFigures',
  /** PRS-04. */
  'leaveRoomForFoam',
  /** CO2-01 and CO2-02. */
  'ventilateFirst',
  'airAboveWorkdayLimit',
  'airAboveShortTermLimit',
  'airDangerToLife',
  /** CO2-03. */
  'candleIsNoTest',
  /** PRS-01. */
  'notProvenFinished',
  'gravityStillFalling',
  'stuckNotFinished',
  /** PRS-02. */
  'moreGasThanBottleHolds',
  'nearTheRating',
  /** PRS-03. */
  'unratedNeverGasTight',
  /** PRS-05. */
  'warmthWakesYeast',
  /** VEG-03. */
  'saltOutsideUsual',
  'saltTooLow',
  'percentOfWaterIsNotOfTheWhole',
  /** VEG-01. */
  'brineAloneIsNotSafety',
  'nitrogenAboveMaximum',
  /** A range that practice keeps to, not a law. */
  'adviceOnly',
  'neverConcentrate',
] as const;

export type Caution = (typeof CAUTIONS)[number];

/** Why no number can be given although every field is filled and inside its range. */
export const IMPOSSIBLE_REASONS = [
  'beyondReckoning',
  'gravityRose',
  'brixRose',
  'noSugarBelowWater',
  'alreadySweeter',
  'alreadyStrongEnough',
  'targetAboveStrength',
  'tooWeakToDilute',
  'noExtractLeft',
  'residueTooLight',
  'moreAcidThanSaid',
  'enoughSulfite',
  'tooMuchSulfite',
  'seedTooWeak',
  'nothingToBlend',
  'targetOutsideBoth',
  'enoughNitrogen',
  'blankAboveReading',
  /** MEAS-09. */
  'acidityImplausible',
] as const;

export type ImpossibleReason = (typeof IMPOSSIBLE_REASONS)[number];

/** The caution when it applies, for a list of them. */
export function cautionIf<Said extends Caution>(applies: boolean, caution: Said): readonly Said[] {
  return applies ? [caution] : [];
}
