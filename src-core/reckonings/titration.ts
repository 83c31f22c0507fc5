import { ok } from '../base/result.ts';
import { acidityFactor, EQUIVALENT_MASS } from '../acid/acid-equivalents.ts';
import { titrationResult } from '../acid/titration-result.ts';
import { grainStrength } from '../acid/titration.ts';
import type { Acid } from '../quantities/understood.ts';
import { answer, step } from './answer.ts';
import type { Caution } from './cautions.ts';
import { defineReckoning, impossible } from './define-reckoning.ts';
import { choice, numberNeeded, numberOptional, numberUsually } from './fields.ts';
import { figure } from './figure.ts';

/** The acids that a titration may be counted as, the vinegar's own first. */
export const ACIDS = [
  'acetic',
  'lactic',
  'malic',
  'tartaric',
  'citric',
  'sulfuric',
] as const satisfies readonly Acid[];

const SOURCE = 'AOAC 930.35J; equivalent masses from IUPAC 2021';
/** U of a result whose hydroxide was last checked six to twelve months ago, or never: rule MEAS-06. */
const UNCHECKED_HYDROXIDE = 0.15;
/** g/100 mL as acetic: more than any ferment makes, so a slip in strength or sample. Bound of the bench. */
const STRONGEST = 20;
const BASE_ML = { unit: 'mL', low: 0, high: 500 } as const;

/** Acidity from a titration with sodium hydroxide: any strength of it, any sample, a blank, up to four readings. */
export const titration = defineReckoning({
  id: 'titration',
  group: 'acid',
  fields: [
    numberNeeded('sampleMl', { unit: 'mL', low: 0.1, high: 500 }),
    numberNeeded('normality', { unit: 'mol/L', low: 0.001, high: 2 }),
    numberNeeded('baseMl', BASE_ML),
    numberOptional('baseMlSecond', BASE_ML),
    numberOptional('baseMlThird', BASE_ML),
    numberOptional('baseMlFourth', BASE_ML),
    numberUsually('blankMl', 0, BASE_ML),
    numberUsually('dilutedTimes', 1, { unit: '×', low: 1, high: 1000 }),
    choice('acid', ACIDS),
    choice('endPoint', ['phenolphthalein', 'meterTo8.2', 'meterTo7.0']),
    choice('hydroxide', ['checkedWithinHalfYear', 'checkedWithinYear', 'notChecked']),
    choice('sample', ['paleAndStill', 'darkAndStill', 'fizzy']),
    numberUsually('dropMl', 0.05, { unit: 'mL', low: 0.001, high: 5 }),
    numberUsually('sampleUncertaintyMl', 0.1, { unit: 'mL', low: 0.001, high: 50 }),
    numberUsually('normalityUncertaintyPercent', 3, { unit: '%', low: 0.1, high: 50 }),
  ],
  says: {
    answers: ['acidity', 'acidityAsAcid', 'acidityGramsPerLitre', 'grain', 'meanBaseMl'],
    steps: ['meanBaseMl', 'titratedSampleMl', 'titratedAcidity', 'aceticFromAcid', 'grain'],
    cautions: [
      'hydroxideBurnsEyes',
      'hydroxideNotChecked',
      'hydroxideTooOld',
      'shakeOutTheGas',
      'colourHidesTheEndPoint',
      'oneReadingStandsApart',
      'readingsScatter',
      'wineEndPoint',
      'fruitAcidCounts',
    ],
    reasons: ['blankAboveReading', 'acidityImplausible'],
  },
  standsFor: { 'errors.sampleMl': 'sampleUncertaintyMl', normalityRelative: 'normalityUncertaintyPercent' },
  reckon(values) {
    const { blankMl, normality, acid, dilutedTimes, dropMl } = values;
    const baseMl = [values.baseMl, values.baseMlSecond, values.baseMlThird, values.baseMlFourth].filter(
      (ml) => ml !== null,
    );
    const least = Math.min(...baseMl);
    if (blankMl > least) return impossible('blankAboveReading', { blankMl, baseMl: least });
    const sampleMl = values.sampleMl / dilutedTimes;
    const result = titrationResult({
      baseMl,
      blankMl,
      normality,
      sampleMl,
      acid,
      errors: {
        dropMl,
        sampleMl: values.sampleUncertaintyMl / dilutedTimes,
        normalityRelative: values.normalityUncertaintyPercent / 100,
      },
    });
    if (!result.ok) return result;
    const { acidity, meanBaseMl, outlier, scatters } = result.value;
    const uncertainty =
      values.hydroxide === 'checkedWithinHalfYear'
        ? result.value.uncertainty
        : Math.max(result.value.uncertainty, UNCHECKED_HYDROXIDE * acidity);
    const toAcetic = acidityFactor({ from: acid, to: 'acetic' });
    const asAcetic = { value: acidity * toAcetic, uncertainty: uncertainty * toAcetic };
    if (asAcetic.value > STRONGEST) return impossible('acidityImplausible', { acidity: asAcetic.value });
    return ok({
      answers: [
        answer('acidity', asAcetic, 'acidity'),
        ...(acid === 'acetic' ? [] : [answer('acidityAsAcid', { value: acidity, uncertainty }, 'g/100 mL')]),
        answer('acidityGramsPerLitre', { value: acidity, uncertainty }, 'g/L', { times: 10 }),
        ...(acid === 'acetic'
          ? [
              answer(
                'grain',
                { value: grainStrength(acidity), uncertainty: grainStrength(uncertainty) },
                'grain',
              ),
            ]
          : []),
        answer('meanBaseMl', meanBaseMl, 'mL'),
      ],
      steps: [
        ...(baseMl.length > 1
          ? [
              step(
                'meanBaseMl',
                `(${baseMl.map((ml) => figure(ml)).join(' + ')}) ÷ ${baseMl.length}`,
                meanBaseMl,
                'mL',
                'mean',
              ),
            ]
          : []),
        ...(dilutedTimes === 1
          ? []
          : [
              step(
                'titratedSampleMl',
                `${figure(values.sampleMl)} ÷ ${figure(dilutedTimes)}`,
                sampleMl,
                'mL',
                'dilution of the sample',
              ),
            ]),
        step(
          'titratedAcidity',
          `(${figure(meanBaseMl)} − ${figure(blankMl)}) mL × ${figure(normality)} mol/L × ${figure(EQUIVALENT_MASS[acid])} ÷ (10 × ${figure(sampleMl)} mL)`,
          acidity,
          'g/100 mL',
          SOURCE,
        ),
        ...(acid === 'acetic'
          ? [step('grain', `10 × ${figure(acidity)}`, grainStrength(acidity), 'grain', 'AOAC 930.35J')]
          : [
              step(
                'aceticFromAcid',
                `${figure(acidity)} × ${figure(EQUIVALENT_MASS.acetic)} ÷ ${figure(EQUIVALENT_MASS[acid])}`,
                asAcetic.value,
                'g/100 mL',
                'IUPAC 2021 atomic weights',
              ),
            ]),
      ],
      cautions: [
        'hydroxideBurnsEyes',
        ...cautionsOf(values),
        ...(outlier === null ? [] : (['oneReadingStandsApart'] as const)),
        ...(scatters ? (['readingsScatter'] as const) : []),
        'fruitAcidCounts',
      ],
    });
  },
});

function cautionsOf(given: {
  readonly hydroxide: 'checkedWithinHalfYear' | 'checkedWithinYear' | 'notChecked';
  readonly sample: 'paleAndStill' | 'darkAndStill' | 'fizzy';
  readonly endPoint: 'phenolphthalein' | 'meterTo8.2' | 'meterTo7.0';
}): readonly Extract<
  Caution,
  'hydroxideNotChecked' | 'hydroxideTooOld' | 'shakeOutTheGas' | 'colourHidesTheEndPoint' | 'wineEndPoint'
>[] {
  return [
    ...(given.hydroxide === 'checkedWithinYear' ? (['hydroxideTooOld'] as const) : []),
    ...(given.hydroxide === 'notChecked' ? (['hydroxideNotChecked'] as const) : []),
    ...(given.sample === 'fizzy' ? (['shakeOutTheGas'] as const) : []),
    ...(given.sample === 'darkAndStill' && given.endPoint === 'phenolphthalein'
      ? (['colourHidesTheEndPoint'] as const)
      : []),
    ...(given.endPoint === 'meterTo7.0' ? (['wineEndPoint'] as const) : []),
  ];
}
