import { mapOk } from '../base/result.ts';
import { BOROSILICATE_GLASS, correctHydrometer as correct, SODA_LIME_GLASS } from '../must/hydrometer.ts';
import { gravityToBrix } from '../quantities/gravity.ts';
import { answer, step } from './answer.ts';
import { defineReckoning } from './define-reckoning.ts';
import { choice, needed, optional, uncertaintyOf, when } from './fields.ts';
import { figure, gravityFigure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

/** °C printed on the stem; 60 °F is 15.5556 °C. */
export const CALIBRATION = { '20C': 20, '60F': (60 - 32) / 1.8, '15C': 15 } as const;
const GLASS = { sodaLime: SODA_LIME_GLASS, borosilicate: BOROSILICATE_GLASS } as const;

/** A hydrometer reading brought to 20 °C, for the liquid it stands in and the glass it is made of. */
export const correctHydrometer = defineReckoning({
  id: 'correctHydrometer',
  group: 'must',
  fields: [
    needed('reading', 'gravity', null, { low: 0.95, high: 1.25 }),
    needed('temperatureCelsius', 'temperature', 'temperature', { low: 0, high: 40 }),
    choice('calibration', ['20C', '60F', '15C']),
    choice('liquid', ['juice', 'fermenting']),
    when('liquid', ['fermenting'], optional('alcoholPercentVol', 'alcohol', 'alcohol', { high: 20 })),
    choice('glass', ['sodaLime', 'borosilicate']),
    uncertaintyOf('reading', { unit: 'SG', high: 0.02 }),
    uncertaintyOf('temperature', { unit: '°C', high: 10 }),
  ],
  says: {
    answers: ['gravity', 'correction', 'brix'],
    steps: ['hydrometerToTwenty', 'hydrometerCorrection'],
    cautions: ['gravityTellsNothingOfVinegar', 'bringSampleToTwentyDegrees', 'errorTakenFromMethod'],
    reasons: [],
  },
  standsFor: {
    calibrationCelsius: 'calibration',
    densityKgPerM3: 'reading',
    sucroseMassPercent: 'reading',
  },
  reckon(values) {
    const { liquid, glass } = values;
    const calibrationCelsius = CALIBRATION[values.calibration];
    const alcoholPercentVol = liquid === 'juice' ? 0 : values.alcoholPercentVol;
    const glassExpansionPerCelsius = GLASS[glass];
    const reading = measured(values.reading, 'hydrometer', values.readingUncertainty);
    const warmth = measured(values.temperatureCelsius, 'thermometer', values.temperatureUncertainty);
    const at = (given: { readonly reading: number; readonly temperatureCelsius: number }) =>
      correct({ ...given, calibrationCelsius, alcoholPercentVol, glassExpansionPerCelsius });
    const here = at(values);
    if (!here.ok) return here;
    const propagated = propagateEach(
      ['gravity'],
      (given: { readonly reading: number; readonly temperatureCelsius: number }) =>
        mapOk(at(given), ({ specificGravity }) => ({ gravity: specificGravity })),
      { reading, temperatureCelsius: warmth },
    );
    if (!propagated.ok) return propagated;
    const { specificGravity, correction, addedUncertainty } = here.value;
    const uncertainty = Math.hypot(propagated.value.gravity.uncertainty, addedUncertainty);
    const brix = liquid === 'juice' ? gravityToBrix(specificGravity) : null;
    const t = figure(values.temperatureCelsius, 1);
    const made = figure(calibrationCelsius, 2);
    return {
      ok: true,
      value: {
        answers: [
          answer('gravity', { value: specificGravity, uncertainty }, 'gravity'),
          answer('correction', correction, 'SG'),
          ...(brix?.ok ? [answer('brix', brix.value, '°Bx')] : []),
        ],
        steps: [
          step(
            'hydrometerToTwenty',
            `${gravityFigure(values.reading)} × ρ(water, ${made} °C) ÷ [1 + ${figure(glassExpansionPerCelsius * 1e6, 0)}e-6 × (${t} − ${made})], then from ${t} °C to 20 °C as ${expandsAs(here.value.liquid, alcoholPercentVol)}`,
            specificGravity,
            'SG',
            'ICUMSA SPS-4; OIML R 22; glass from OIML R 44 (memory)',
          ),
          step(
            'hydrometerCorrection',
            `${gravityFigure(specificGravity)} − ${gravityFigure(values.reading)}`,
            correction,
            'SG',
            'difference',
          ),
        ],
        cautions: [
          ...(liquid === 'fermenting' ? (['gravityTellsNothingOfVinegar'] as const) : []),
          ...(addedUncertainty > 0 ? (['bringSampleToTwentyDegrees'] as const) : []),
          ...errorCaution(reading, warmth),
        ],
      },
    };
  },
});

function expandsAs(liquid: 'sugar' | 'alcohol', alcoholPercentVol: number | null): string {
  if (liquid === 'sugar') return 'a sugar solution';
  return `alcohol of ${alcoholPercentVol === null ? 'unknown strength' : `${figure(alcoholPercentVol)} % vol`}`;
}
