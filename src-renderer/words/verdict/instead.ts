import type { Finding } from '#core/contract/verdict.ts';

/** What can be done where a rule forbids and asks for no measurement, by wording key. */
const INSTEAD: Readonly<Record<string, string>> = {
  'VIN-06.category': 'No measurement changes this. Call it what it is.',
  'VIN-08.category': 'Measure the acidity again, with eyes and hands covered, and dilute it before any use.',
  'VIN-09.category': 'Chill it, or open it to its mother; then measure the acidity again.',
  'VIN-10.category': 'Filter and heat it, then look again against the light.',
  'VIN-11.falling': 'Bottle it full, then measure acidity by titration and print that.',
  'CAN-02.wrong_side': 'Buy vinegar marked 5\u00A0% or more.',
  'CAN-02.diluted_at_home': 'Buy vinegar marked 5\u00A0% or more, and leave it as it comes.',
  'CAN-04.category': 'Follow a tested recipe, or keep the jars in the refrigerator.',
  'CAN-05.category': 'Move the pickle to the refrigerator.',
  'CAN-05.wrong_side':
    'Let the mother work longer, then measure acidity by titration; or use bought vinegar.',
  'CAN-06.category': 'Only a tested canning process, or the refrigerator from the first day, allows it.',
  'INF-01.wrong_side': 'Begin again with vinegar of 5\u00A0% or more.',
  'VEG-07.category': 'Move it to the refrigerator, and measure its pH before you eat of it.',
  'VEG-09.category': 'Wait until it is 14 days old, or give it to someone else.',
  'KOM-02.wrong_side': 'It still serves as a starter, or may sour on into vinegar.',
  'KOM-03.wrong_side': 'Add mature starter, then measure the pH of the whole.',
  'KOM-03.category': 'Find starter from a finished brew first.',
  'KOM-04.category': 'Take “alcohol-free” off the label, or have a laboratory measure the alcohol.',
  'KOM-05.category': 'No measurement changes this. Choose something else for them.',
  'KOM-06.category': 'Loosen the lid, chill it, and use bottles rated for pressure.',
  'KEF-02.category': 'Take “alcohol-free” off the label, or have a laboratory measure the alcohol.',
  'CID-02.category': 'Heat the juice, or ferment it right through.',
  'CID-03.category': 'Heat the juice first.',
  'CID-04.wrong_side': 'Heat the juice again, with a thermometer in the middle of the pot.',
  'WIN-01.category': 'Take “sulfite-free” off the label, or measure total sulfite.',
  'WIN-02.category':
    'No measurement changes this. Let someone without asthma do it, into something cool and weak.',
  'LAW-02.category': 'Ask the food office where you live, and note that you did.',
  'PRS-01.category': 'Leave the airlock on. Once it is still, measure gravity twice, 48 hours apart.',
  'PRS-01.falling': 'Leave the airlock on. Once it is still, measure gravity twice, 48 hours apart.',
  'PRS-02.wrong_side':
    'Choose bottles rated for more, use less sugar, or let it ferment on; then measure gravity again.',
  'PRS-03.category': 'Loosen the lid now. Once it is still, measure gravity twice, 48 hours apart.',
  'PRS-03.wrong_side': 'Loosen the lid now, and measure gravity again when it has worked longer.',
  'PRS-04.category': 'Fit an airlock, a cloth or a loose lid.',
  'PRS-05.category': 'Leave them cool, or chill them and open one outdoors under a cloth.',
  'PRS-06.category': 'No measurement changes this. Keep these bottles in the refrigerator instead.',
  'CO2-01.wrong_side':
    'Open doors and windows from outside, wait, and measure again at knee height from the door.',
  'CO2-02.wrong_side':
    'Open doors and windows from outside, then measure carbon dioxide at knee height from the door.',
  'CO2-03.category': 'Measure nothing. Get everyone out into fresh air and call for help.',
  'MAT-01.category': 'No measurement at home changes this. Use glass.',
  'MAT-02.category': 'Use glass, stainless steel, food-grade plastic or sound wood.',
  'MAT-03.category': 'Use another vessel, of glass or food-grade plastic.',
  'MAT-04.category': 'Use another vessel.',
  'MAT-06.category': 'Keep that wood for vinegar, and use another vessel.',
  'CLN-01.category': 'Rinse with much water first, in fresh air.',
  'CLN-02.category': 'Do it outdoors, with nobody near who has asthma.',
  'CLN-03.category': 'Stop, and go on only with goggles, gloves and a labelled bottle of kit strength.',
  'CLN-04.category': 'Rinse until nothing smells of the cleaner.',
  'PAS-01.wrong_side': 'Heat it again, with a thermometer in the middle of the pot.',
  'PAS-01.category': 'Use a pot of stainless steel, glass or whole enamel.',
  'PAS-02.category': 'Set some living vinegar and mother aside first.',
  'PAS-03.category': 'Take sound bottles, and warm them first.',
};

/** The wording keys that have something to do instead. */
export const INSTEAD_KEYS: readonly string[] = Object.keys(INSTEAD);

/**
 * What to do where rules forbid and no measurement is asked for: for the first that has something to do, and only when every
 * rule that forbids has. Null where one of them is final.
 */
export function sayInstead(findings: readonly Finding[]): string | null {
  const said = findings
    .filter(({ verdict }) => verdict === 'do_not')
    .map(({ sayKey }) => INSTEAD[sayKey] ?? null);
  return said.includes(null) ? null : (said[0] ?? null);
}
