import { ok, type Result } from '../base/result.ts';
import { mashOf, seedToAcidity, SEEDING_ADVICE, type SeedError, type SeedPlan } from '../acid/seeding.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { asked, defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, uncertaintyOf, usually, when } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, exact, measured, propagateEach } from './measured.ts';

const SOURCE = 'mass balance';
/** Litres of seed to a litre of base beyond which no one would call it seeding. Bound of the bench. */
const MOST_SEED = 10;
const { startAcidity } = SEEDING_ADVICE;

/** Raw vinegar that starts a base at a wanted acidity; or what a given amount of it makes of the base. */
export const seedMother = defineReckoning({
  id: 'seedMother',
  group: 'acid',
  carriesOut: 'seed',
  amountAnswer: 'seedVolume',
  fields: [
    choice('lookFor', ['howMuchSeed', 'whatItGives']),
    needed('baseVolumeUl', 'volume', 'volumeUl', { low: 1000 }),
    needed('basePercentVol', 'alcohol', 'alcohol', { high: 20 }),
    usually('baseGramsPer100Ml', 'acidity', 0, 'acidity', { high: 15 }),
    needed('seedGramsPer100Ml', 'acidity', null, { high: 15 }),
    usually('seedPercentVol', 'alcohol', 0, null, { high: 20 }),
    when(
      'lookFor',
      ['howMuchSeed'],
      // The middle of the advised 1–2 g/100 mL.
      usually('startGramsPer100Ml', 'acidity', (startAcidity.low + startAcidity.high) / 2, null, {
        low: 0.1,
        high: 4,
      }),
    ),
    when('lookFor', ['whatItGives'], needed('seedVolumeUl', 'volume')),
    uncertaintyOf('acidity', { unit: 'g/100 mL', high: 5 }),
    uncertaintyOf('alcohol', { unit: '% vol', high: 5 }),
  ],
  says: {
    answers: ['seedVolume', 'seedShare', 'acidity', 'alcohol', 'volumeAfter'],
    steps: ['seedVolume', 'seedShare', 'mashAcidity', 'mashAlcohol'],
    cautions: [
      'alcoholBelowAdvice',
      'alcoholAboveAdvice',
      'moreSeedThanUsual',
      'lessSeedThanUsual',
      'baseIsAcidEnough',
      'seedMustBeAlive',
      'clothNotLid',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: ['seedTooWeak'],
  },
  standsFor: {
    baseLitres: 'baseVolumeUl',
    volumeLitres: 'baseVolumeUl',
    alcoholPercentVol: 'basePercentVol',
    acidityGramsPer100Ml: 'baseGramsPer100Ml',
    startAcidity: 'startGramsPer100Ml',
  },
  reckon(values) {
    const findsSeed = values.lookFor === 'howMuchSeed';
    const wanted = findsSeed ? asked(values.startGramsPer100Ml) : 0;
    const lacking = wanted - values.baseGramsPer100Ml;
    const headroom = values.seedGramsPer100Ml - wanted;
    if (findsSeed && lacking > 0 && lacking > headroom * MOST_SEED) {
      return impossible('seedTooWeak', { seed: values.seedGramsPer100Ml, wanted });
    }
    const known = (value: number, method: 'taSyringeKit' | 'alcoholFromGravities', given: number | null) =>
      value === 0 ? exact(0) : measured(value, method, given);
    const inputs = {
      litres: measured(values.baseVolumeUl / UL_PER_LITRE, 'jugOrMark'),
      alcohol: known(values.basePercentVol, 'alcoholFromGravities', values.alcoholUncertainty),
      acid: known(values.baseGramsPer100Ml, 'taSyringeKit', values.acidityUncertainty),
      seedAcid: known(values.seedGramsPer100Ml, 'taSyringeKit', values.acidityUncertainty),
    };
    const given = findsSeed ? null : asked(values.seedVolumeUl) / UL_PER_LITRE;
    const planAt = (part: Readonly<Record<keyof typeof inputs, number>>, seedLitres: number | null) =>
      mashFor({ ...part, seedLitres, seedAlcohol: values.seedPercentVol, wanted });
    const here = planAt(
      {
        litres: inputs.litres.value,
        alcohol: inputs.alcohol.value,
        acid: inputs.acid.value,
        seedAcid: inputs.seedAcid.value,
      },
      given,
    );
    if (!here.ok) return refusal(here.error);
    const { seedLitres, totalLitres, notes } = here.value;
    const howMuch = propagateEach(
      ['seedLitres'],
      (part: Readonly<Record<keyof typeof inputs, number>>) => {
        const plan = planAt(part, given);
        return plan.ok ? ok({ seedLitres: plan.value.seedLitres }) : plan;
      },
      inputs,
    );
    // What the mash is follows from the seed that goes in, which is then a measured amount.
    const mash = propagateEach(
      ['acidityGramsPer100Ml', 'alcoholPercentVol', 'totalLitres'],
      (part: Readonly<Record<keyof typeof inputs, number>>) => planAt(part, seedLitres),
      inputs,
    );
    if (!howMuch.ok) return refusal(howMuch.error);
    if (!mash.ok) return refusal(mash.error);
    const { acidityGramsPer100Ml: acid, alcoholPercentVol: alcohol } = mash.value;
    const base = figure(inputs.litres.value);
    return ok({
      answers: [
        answer('seedVolume', findsSeed ? howMuch.value.seedLitres : seedLitres, 'volume', {
          times: UL_PER_LITRE,
        }),
        answer('seedShare', seedLitres / inputs.litres.value, '%', { times: 100 }),
        answer('acidity', acid, 'acidity'),
        answer('alcohol', alcohol, 'alcohol'),
        answer('volumeAfter', mash.value.totalLitres, 'volume', { times: UL_PER_LITRE }),
      ],
      steps: [
        ...(findsSeed
          ? [
              step(
                'seedVolume',
                `${base} L × (${figure(wanted)} − ${figure(inputs.acid.value)}) ÷ (${figure(inputs.seedAcid.value)} − ${figure(wanted)})`,
                seedLitres,
                'L',
                SOURCE,
              ),
            ]
          : []),
        step(
          'seedShare',
          `${figure(seedLitres)} ÷ ${base} × 100`,
          (seedLitres / inputs.litres.value) * 100,
          '%',
          'ratio',
        ),
        step(
          'mashAcidity',
          `(${base} × ${figure(inputs.acid.value)} + ${figure(seedLitres)} × ${figure(inputs.seedAcid.value)}) ÷ ${figure(totalLitres)}`,
          acid.value,
          'g/100 mL',
          SOURCE,
        ),
        step(
          'mashAlcohol',
          `(${base} × ${figure(inputs.alcohol.value)} + ${figure(seedLitres)} × ${figure(values.seedPercentVol)}) ÷ ${figure(totalLitres)}, by mass`,
          alcohol.value,
          '% vol',
          'mass balance over OIML R 22',
        ),
      ],
      cautions: [
        ...notes,
        'seedMustBeAlive',
        'clothNotLid',
        'worksOutNotMeasured',
        ...errorCaution(...Object.values(inputs)),
      ],
    });
  },
});

interface Mash {
  readonly litres: number;
  readonly alcohol: number;
  readonly acid: number;
  readonly seedAcid: number;
  readonly seedAlcohol: number;
  readonly seedLitres: number | null;
  readonly wanted: number;
}

function mashFor(given: Mash): Result<SeedPlan, SeedError> {
  const base = { alcoholPercentVol: given.alcohol, acidityGramsPer100Ml: given.acid };
  const seed = { alcoholPercentVol: given.seedAlcohol, acidityGramsPer100Ml: given.seedAcid };
  return given.seedLitres === null
    ? seedToAcidity({ baseLitres: given.litres, base, seed, startAcidity: given.wanted })
    : mashOf({ baseLitres: given.litres, base, seedLitres: given.seedLitres, seed });
}

function refusal(error: SeedError) {
  return error.type === 'SeedTooWeak'
    ? impossible('seedTooWeak', { seed: error.seed, wanted: error.wanted })
    : ({ ok: false, error } as const);
}
