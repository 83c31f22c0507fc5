import { ok } from '../base/result.ts';
import { alcoholByRefractometer } from '../must/fermented-refractometer.ts';
import { refractometerCorrection } from '../must/refractometer.ts';
import { brixToGravity } from '../quantities/gravity.ts';
import { propagate } from '../quantities/propagate.ts';
import { answer, step } from './answer.ts';
import { asked, defineReckoning, impossible } from './define-reckoning.ts';
import { choice, needed, numberNeeded, uncertaintyOf, when } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, exact, measured, propagateEach } from './measured.ts';

const BRIX = { unit: '°Bx', low: 0, high: 40 } as const;
const TABLE = 'OIV-MA-AS2-02 Table I (25 and 30 °C from memory)';
const ESTIMATE = 'Balling with refractive increments (memory); spread of 58 wines by Bavčar and Košmerl 2002';

/** A refractometer in juice, corrected for warmth; and in a ferment, where it gives an estimate with a wide spread. */
export const refractometer = defineReckoning({
  id: 'refractometer',
  group: 'must',
  fields: [
    choice('readWhen', ['beforeYeast', 'afterYeast']),
    when('readWhen', ['beforeYeast'], numberNeeded('readingBrix', BRIX)),
    when('readWhen', ['beforeYeast'], choice('instrument', ['correctsItself', 'doesNotCorrect'])),
    when('instrument', ['doesNotCorrect'], needed('temperatureCelsius', 'temperature', 'temperature')),
    when('readWhen', ['afterYeast'], numberNeeded('originalBrix', BRIX)),
    when('readWhen', ['afterYeast'], numberNeeded('presentBrix', BRIX)),
    uncertaintyOf('brix', { unit: '°Bx', high: 5 }),
  ],
  says: {
    answers: ['brix', 'gravity', 'correction', 'alcohol', 'realExtract'],
    steps: ['refractometerCorrection', 'correctedBrix', 'brixToGravity', 'refractometerAlcohol'],
    cautions: ['brixIsNotSugar', 'refractometerAfterYeast', 'worksOutNotMeasured', 'errorTakenFromMethod'],
    reasons: ['brixRose'],
  },
  standsFor: {
    readingPercent: 'readingBrix',
    sucroseMassPercent: 'readingBrix',
    realExtract: 'presentBrix',
    brix: 'presentBrix',
    ethanolMassFraction: 'presentBrix',
  },
  reckon(values) {
    if (values.readWhen === 'afterYeast') {
      return fermented(asked(values.originalBrix), asked(values.presentBrix), values.brixUncertainty);
    }
    const readingBrix = asked(values.readingBrix);
    const reading = measured(readingBrix, 'refractometer', values.brixUncertainty);
    const corrects = values.instrument === 'doesNotCorrect';
    const t = corrects ? asked(values.temperatureCelsius) : 20;
    const correction = corrects
      ? refractometerCorrection({ readingPercent: readingBrix, temperatureCelsius: t })
      : ok(0);
    if (!correction.ok) return correction;
    const warmth = corrects ? measured(t, 'thermometer') : exact(t);
    const brix = propagate(
      (part: Readonly<Record<'reading' | 'warmth', number>>) => {
        if (!corrects) return ok(part.reading);
        const added = refractometerCorrection({
          readingPercent: part.reading,
          temperatureCelsius: part.warmth,
        });
        return added.ok ? ok(part.reading + added.value) : added;
      },
      { reading, warmth },
    );
    if (!brix.ok) return brix;
    // A reading a hair below nothing is water.
    const value = Math.max(0, brix.value.value);
    const gravity = propagateEach(
      ['gravity'],
      ({ at }: { readonly at: number }) => {
        const found = brixToGravity(Math.max(0, at));
        return found.ok ? ok({ gravity: found.value }) : found;
      },
      { at: { value, uncertainty: brix.value.uncertainty } },
    );
    if (!gravity.ok) return gravity;
    return ok({
      answers: [
        answer('brix', { value, uncertainty: brix.value.uncertainty }, '°Bx'),
        answer('gravity', gravity.value.gravity, 'gravity'),
        ...(corrects ? [answer('correction', correction.value, '°Bx')] : []),
      ],
      steps: [
        ...(corrects
          ? [
              step(
                'refractometerCorrection',
                `table at ${figure(t, 1)} °C and ${figure(readingBrix)} °Bx`,
                correction.value,
                '°Bx',
                TABLE,
              ),
              step(
                'correctedBrix',
                `${figure(readingBrix)} + (${figure(correction.value)})`,
                value,
                '°Bx',
                TABLE,
              ),
            ]
          : []),
        step(
          'brixToGravity',
          `(ρ(${figure(value)} °Bx) − 1.2) ÷ (ρ(water) − 1.2)`,
          gravity.value.gravity.value,
          'SG',
          'ICUMSA SPS-4, weighed in air',
        ),
      ],
      cautions: ['brixIsNotSugar', ...errorCaution(reading)],
    });
  },
});

function fermented(originalBrix: number, presentBrix: number, given: number | null) {
  if (presentBrix > originalBrix) return impossible('brixRose', { originalBrix, presentBrix });
  const estimate = alcoholByRefractometer({ originalBrix, presentBrix });
  if (!estimate.ok) return estimate;
  const { alcoholPercentVol, uncertaintyPercentVol, realExtract } = estimate.value;
  const readings = {
    original: measured(originalBrix, 'refractometer', given),
    present: measured(presentBrix, 'refractometer', given),
  };
  const ofReadings = propagateEach(
    ['alcohol', 'extract'],
    (part: Readonly<Record<'original' | 'present', number>>) => {
      const moved = alcoholByRefractometer({ originalBrix: part.original, presentBrix: part.present });
      return moved.ok
        ? ok({ alcohol: moved.value.alcoholPercentVol, extract: moved.value.realExtract })
        : moved;
    },
    readings,
  );
  if (!ofReadings.ok) return ofReadings;
  const uncertainty = Math.hypot(uncertaintyPercentVol, ofReadings.value.alcohol.uncertainty);
  return ok({
    answers: [
      answer('alcohol', { value: alcoholPercentVol, uncertainty }, 'alcohol'),
      answer('realExtract', { value: realExtract, uncertainty: ofReadings.value.extract.uncertainty }, '°P'),
    ],
    steps: [
      step(
        'refractometerAlcohol',
        `from ${figure(originalBrix)} to ${figure(presentBrix)} °Bx, where the reading is real extract + 0.44 × alcohol by mass`,
        alcoholPercentVol,
        '% vol',
        ESTIMATE,
      ),
    ],
    cautions: [
      'refractometerAfterYeast' as const,
      'worksOutNotMeasured' as const,
      ...errorCaution(readings.original, readings.present),
    ],
  });
}
