import type { Caution } from '#core/reckonings/cautions.ts';

/** What stands beside a result of the bench, with the safety rule it comes from where there is one. */
export interface CautionSaid {
  readonly sentence: string;
  /** Such as `CAN-01`; null for the limit of a method rather than a rule. */
  readonly ruleId: string | null;
}

const SAID: Readonly<Record<Caution, CautionSaid>> = {
  gravityTellsNothingOfVinegar: {
    sentence:
      'Under a working mother the hydrometer no longer follows the sugar: it floats higher as alcohol goes, and higher again as acid comes. Titrate instead.',
    ruleId: 'MEAS-14',
  },
  bringSampleToTwentyDegrees: {
    sentence:
      'This is far from 20 °C, so the correction itself is unsure. Let the sample come nearer to 20 °C and read it again.',
    ruleId: 'MEAS-14',
  },
  errorTakenFromMethod: {
    sentence: 'Where you gave no error, or one too small for the method, a cautious one was taken.',
    ruleId: 'MEAS-02',
  },
  brixIsNotSugar: {
    sentence:
      'Brix counts everything dissolved. In fruit juice a tenth or more of it is not sugar that yeast can use.',
    ruleId: null,
  },
  refractometerAfterYeast: {
    sentence:
      'Alcohol shifts a refractometer, and no one formula fits every liquid. Take this as a rough estimate; use a hydrometer from the day the yeast goes in.',
    ruleId: 'MEAS-14',
  },
  worksOutNotMeasured: {
    sentence: 'This is worked out, not measured, so it clears no safety rule. Measure before you rely on it.',
    ruleId: 'MEAS-13',
  },
  plansAreRanges: {
    sentence: 'Yeasts and fruits differ. Plan with the range, not with the one number.',
    ruleId: null,
  },
  volatileAcidCounts: {
    sentence:
      'Vinegar acid weighs in here as if it were extract. In half-made vinegar the result is too high.',
    ruleId: null,
  },
  honeyNotForInfants: {
    sentence:
      'There is honey in it, so no baby in its first year may have any, heated or fermented though it be.',
    ruleId: 'HON-01',
  },
  addSugarInParts: {
    sentence:
      'A must this sweet can tire the yeast. Put the sugar in by parts over the first days, and expect some of it to be left.',
    ruleId: null,
  },
  measureAgainAfterWater: {
    sentence:
      'Titrate once more when the water is in; the label carries that strength, not the one worked out here.',
    ruleId: 'VIN-02',
  },
  neverForCanning: {
    sentence:
      'Do not can with it, and do not put up shelf pickles in it, however strong it turns out: that takes shop vinegar marked 5 % and a tested recipe.',
    ruleId: 'CAN-01',
  },
  hydroxideNotChecked: {
    sentence:
      'Old sodium hydroxide is weaker than its label and makes weak vinegar look strong. Until you have checked it against a standard, this result counts for no safety rule.',
    ruleId: 'MEAS-06',
  },
  hydroxideTooOld: {
    sentence:
      'Your sodium hydroxide was last checked more than six months ago, so ±15 % is taken. Check it against a standard.',
    ruleId: 'MEAS-06',
  },
  shakeOutTheGas: {
    sentence:
      'Dissolved gas counts as acid. Boil the sample briefly or shake the gas out, let it cool, and titrate again; until then this counts for no safety rule.',
    ruleId: 'MEAS-06',
  },
  colourHidesTheEndPoint: {
    sentence:
      'In a dark sample you cannot see the pink come. Dilute it with water, or titrate to pH 8.2 with a meter; until then this counts for no safety rule.',
    ruleId: 'MEAS-06',
  },
  hydroxideBurnsEyes: {
    sentence:
      'Sodium hydroxide burns eyes: goggles and gloves on, a labelled bottle, children away. If it splashes, rinse with water for 15 minutes and get help.',
    ruleId: 'CLN-03',
  },
  oneReadingStandsApart: {
    sentence:
      'One of your readings stands apart from the others. Nothing was left out; titrate once more to see which is right.',
    ruleId: null,
  },
  readingsScatter: {
    sentence: 'Your readings lie further apart than a drop explains. Titrate once more, slowly near the end.',
    ruleId: null,
  },
  wineEndPoint: {
    sentence:
      'pH 7.0 is the end point for the total acidity of wine. For vinegar go to pH 8.2, or the result comes out low.',
    ruleId: 'MEAS-06',
  },
  fruitAcidCounts: {
    sentence:
      'The fruit brought acid of its own, which a titration cannot tell apart: the acetic acid alone is somewhat less.',
    ruleId: 'MEAS-05',
  },
  mayFallShortOfVinegar: {
    sentence:
      'At the low end this does not reach 4 %, which is the least for vinegar in many places; yours may ask for more. Check your local rule.',
    ruleId: 'VIN-01',
  },
  totalConcentrationFell: {
    sentence:
      'Alcohol and acid together have fallen by more than your readings can be wrong. Something is lost: evaporation, or the mother is burning acid. Titrate again soon.',
    ruleId: 'VIN-11',
  },
  acidityFell: {
    sentence:
      'The acidity itself has fallen, so the mother is living on the acid. Titrate again, and fill it into bottles to the neck.',
    ruleId: 'VIN-11',
  },
  alcoholNearlyGone: {
    sentence: 'Hardly any alcohol is left. A mother without alcohol turns to the acid, so draw it off soon.',
    ruleId: 'VIN-11',
  },
  moreAcidThanPossible: {
    sentence: 'So much acid cannot come from that alcohol. Look for the reading that is off.',
    ruleId: 'MEAS-10',
  },
  clothNotLid: {
    sentence: 'All of this comes out of the air above it: a tight cloth, never a lid, and a wide surface.',
    ruleId: null,
  },
  phIsNotStrength: {
    sentence:
      'Do not take pH for strength, since even a weak vinegar may read low. Only a titration tells how much acid there is.',
    ruleId: 'MEAS-11',
  },
  sulfiteGas: {
    sentence:
      'Sulfite powder and its gas bring on asthma. Open the window, keep your face away from it, let nobody with asthma near, and never drop it into anything hot or strongly acid.',
    ruleId: 'WIN-02',
  },
  sulfiteMayHinderVinegar: {
    sentence:
      'So much sulfite may hold back the mother. For vinegar keep it lower, or wait until it has gone.',
    ruleId: null,
  },
  sulfiteStopsVinegar: {
    sentence: 'So much sulfite stops acetic bacteria. Nothing will turn to vinegar while it is there.',
    ruleId: null,
  },
  declareSulfite: {
    sentence:
      'Write “contains sulfites” on the label from 10 mg/L on, and whenever any was put in. Your local rule may ask for more.',
    ruleId: 'WIN-01',
  },
  someSulfiteBinds: {
    sentence:
      'Part of what you put in is bound at once and does not count as free. Measure the free sulfite again after a day.',
    ruleId: null,
  },
  alcoholBelowAdvice: {
    sentence: 'The mash would hold less than 5 % vol of alcohol. It may not make a vinegar that keeps.',
    ruleId: null,
  },
  alcoholAboveAdvice: {
    sentence: 'The mash would hold more than 9 % vol of alcohol, which slows many mothers. Add water first.',
    ruleId: null,
  },
  moreSeedThanUsual: {
    sentence:
      'This is more raw vinegar than the usual tenth to quarter of the base. A stronger seed needs less.',
    ruleId: null,
  },
  lessSeedThanUsual: {
    sentence: 'This is less raw vinegar than the usual tenth of the base, so the start may be slow.',
    ruleId: null,
  },
  baseIsAcidEnough: {
    sentence: 'The base is acid enough already; it needs a living mother, but no vinegar for its acidity.',
    ruleId: null,
  },
  seedMustBeAlive: {
    sentence: 'Only raw, unheated vinegar seeds anything. A bottle from a shop is mostly heated or filtered.',
    ruleId: null,
  },
  noMouldyFruit: {
    sentence:
      'Press sound fruit only. Mould and rot leave a poison behind, and neither heat nor fermenting is trusted to take it away.',
    ruleId: 'CID-01',
  },
  commonPracticeFigures: {
    sentence:
      'These shares are common practice, without a published source. Your own press and your own fruit will differ.',
    ruleId: null,
  },
  leaveRoomForFoam: {
    sentence:
      'Leave at least a tenth of the vessel empty for foam, and let the gas out through an airlock or cloth.',
    ruleId: 'PRS-04',
  },
  ventilateFirst: {
    sentence:
      'Air the room before you go in, and do not go in alone. The gas is heavy and lies near the floor; a detector at knee height tells you, your nose does not.',
    ruleId: 'CO2-02',
  },
  airAboveWorkdayLimit: {
    sentence:
      'Closed, this room would pass 5 000 ppm within a day, the limit for a working day. Keep air moving while anything ferments.',
    ruleId: 'CO2-02',
  },
  airAboveShortTermLimit: {
    sentence: 'Closed, this room would pass 30 000 ppm within a day. Nobody enters until it has been aired.',
    ruleId: 'CO2-02',
  },
  airDangerToLife: {
    sentence:
      'Closed, this room would pass 40 000 ppm within a day, which is dangerous to life. Nobody enters until it has been aired and measured. If your head aches or your heart pounds, leave at once and call for help.',
    ruleId: 'CO2-01',
  },
  candleIsNoTest: {
    sentence: 'A candle that burns proves nothing: it still burns where the air is already dangerous.',
    ruleId: 'CO2-03',
  },
  notProvenFinished: {
    sentence:
      'Not proven finished: leave the airlock on. It takes two readings at least 48 hours apart, the last not older than three days, and no more than 0.001 between them.',
    ruleId: 'PRS-01',
  },
  gravityStillFalling: {
    sentence: 'The gravity is still falling. Do not seal it.',
    ruleId: 'PRS-01',
  },
  stuckNotFinished: {
    sentence:
      'It stands still above 1.002. It may be stuck rather than finished, and warmth can start it again in the bottle.',
    ruleId: 'PRS-01',
  },
  moreGasThanBottleHolds: {
    sentence: 'The gas still to come is over what this bottle is made for. Do not seal it: bottles burst.',
    ruleId: 'PRS-02',
  },
  nearTheRating: {
    sentence:
      'This comes within half a volume of what the bottle holds. Use less sugar or a stronger bottle.',
    ruleId: 'PRS-02',
  },
  unratedNeverGasTight: {
    sentence:
      'No jar, jug, demijohn, clip jar or wine bottle is built to take pressure. Never close one gas-tight on anything that may still ferment.',
    ruleId: 'PRS-03',
  },
  warmthWakesYeast: {
    sentence:
      'In the warm the pressure climbs, and yeast that slept may start again. Keep sealed bottles cool, covered, and away from people.',
    ruleId: 'PRS-05',
  },
  saltOutsideUsual: {
    sentence:
      'Most vegetables ferment at 2 to 5 % salt of the whole, cabbage at 2 to 3 %. Outside that, follow a tested recipe.',
    ruleId: 'VEG-03',
  },
  saltTooLow: {
    sentence:
      'Under 1.5 % salt of the whole, spoilage gets ahead of the souring. Reckon the salt on everything in the jar, the water too.',
    ruleId: 'VEG-03',
  },
  percentOfWaterIsNotOfTheWhole: {
    sentence:
      'A percentage of the brine is not a percentage of the whole. Weigh the vegetables too: the rule counts salt on all that is in the jar.',
    ruleId: 'VEG-03',
  },
  brineAloneIsNotSafety: {
    sentence:
      'Salt alone does not make it safe: it must turn sour, below pH 4.6 by meter, in time. Measure the vegetable itself, not only the brine.',
    ruleId: 'VEG-01',
  },
  nitrogenAboveMaximum: {
    sentence:
      'This is more diammonium phosphate than the 1 g/L that practice in the EU allows. Give part of the food in another way.',
    ruleId: null,
  },
  adviceOnly: {
    sentence: 'This is a range that practice keeps to. What stands on the packet comes first.',
    ruleId: null,
  },
  neverConcentrate: {
    sentence:
      'Adding spirit is one thing; distilling or freezing out alcohol at home is dangerous and mostly illegal.',
    ruleId: 'WIN-04',
  },
};

/** The sentence of a caution, to be shown beside the result, never folded away. */
export function sayCaution(caution: Caution): CautionSaid {
  return SAID[caution];
}
