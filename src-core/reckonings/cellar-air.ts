import { mapOk, ok } from '../base/result.ts';
import { GAS_LITRES_PER_LITRE_AND_POINT, roomCarbonDioxidePerDay } from '../must/carbon-dioxide.ts';
import { defaultUncertainty } from '../quantities/uncertainty.ts';
import { ROOM_PPM } from '../safety/rules/gas.ts';
import { answer, step, UL_PER_LITRE } from './answer.ts';
import { cautionIf } from './cautions.ts';
import { defineReckoning } from './define-reckoning.ts';
import { needed, numberNeeded, numberUsually, uncertaintyOf } from './fields.ts';
import { figure } from './figure.ts';
import { errorCaution, measured, propagateEach } from './measured.ts';

const SOURCE = 'safety rule CO2-02, after cider-makers’ carbonation arithmetic';
/** Hours beyond which a closed room is no longer a matter of days. */
const LONGEST_HOURS = 720;

/** What the air of a closed room comes to in a day while something ferments in it. */
export const cellarAir = defineReckoning({
  id: 'cellarAir',
  group: 'room',
  fields: [
    needed('volumeUl', 'volume', 'volumeUl'),
    numberNeeded('pointsPerDay', { unit: 'points a day', low: 0, high: 100 }),
    numberNeeded('roomCubicMetres', { unit: 'm³', low: 0.1, high: 1_000_000 }),
    numberUsually('roomUncertaintyPercent', 10, { unit: '%', low: 0, high: 90 }),
    uncertaintyOf('points', { unit: 'points a day', high: 50 }),
  ],
  says: {
    answers: ['ppmPerDay', 'hoursToWorkdayLimit', 'gasLitresPerDay'],
    steps: ['gasLitresPerDay', 'ppmPerDay', 'hoursToWorkdayLimit'],
    cautions: [
      'ventilateFirst',
      'airAboveWorkdayLimit',
      'airAboveShortTermLimit',
      'airDangerToLife',
      'candleIsNoTest',
      'worksOutNotMeasured',
      'errorTakenFromMethod',
    ],
    reasons: [],
  },
  standsFor: { activeLitres: 'volumeUl', roomLitres: 'roomCubicMetres' },
  reckon(values) {
    const litres = measured(values.volumeUl / UL_PER_LITRE, 'jugOrMark');
    const { pointsPerDay, pointsUncertainty, roomCubicMetres } = values;
    // A fall is the difference of two hydrometer readings, each with its own error.
    const byDefault = 1000 * Math.SQRT2 * defaultUncertainty('hydrometer', 1);
    const points = {
      value: pointsPerDay,
      uncertainty: pointsUncertainty ?? byDefault,
      fromMethod: pointsUncertainty === null,
    };
    const room = {
      value: roomCubicMetres * 1000,
      uncertainty: roomCubicMetres * 10 * values.roomUncertaintyPercent,
    };
    const found = propagateEach(
      ['ppm', 'gas'],
      (part: Readonly<Record<'litres' | 'points' | 'room', number>>) =>
        mapOk(
          roomCarbonDioxidePerDay({
            activeLitres: part.litres,
            pointsPerDay: part.points,
            roomLitres: part.room,
          }),
          (ppm) => ({ ppm, gas: part.litres * part.points * GAS_LITRES_PER_LITRE_AND_POINT }),
        ),
      { litres, points, room },
    );
    if (!found.ok) return found;
    const { ppm, gas } = found.value;
    // The limits are held against the high end: the reading may be that much too low.
    const high = ppm.value + ppm.uncertainty;
    const hours = (24 * ROOM_PPM.workday) / ppm.value;
    const showsHours = ppm.value > 0 && ppm.value < 1e6 && hours <= LONGEST_HOURS;
    return ok({
      answers: [
        answer('ppmPerDay', ppm, 'ppm', { limit: 'upper' }),
        ...(showsHours
          ? [
              answer(
                'hoursToWorkdayLimit',
                { value: hours, uncertainty: (hours * ppm.uncertainty) / ppm.value },
                'hours',
                { limit: 'lower' },
              ),
            ]
          : []),
        answer('gasLitresPerDay', gas, 'L', { limit: 'upper' }),
      ],
      steps: [
        step(
          'gasLitresPerDay',
          `${figure(litres.value)} L × ${figure(pointsPerDay)} points × ${GAS_LITRES_PER_LITRE_AND_POINT} L`,
          gas.value,
          'L',
          SOURCE,
        ),
        step(
          'ppmPerDay',
          `${figure(gas.value)} ÷ ${figure(room.value)} × 1 000 000`,
          ppm.value,
          'ppm',
          SOURCE,
        ),
        ...(showsHours
          ? [
              step(
                'hoursToWorkdayLimit',
                `24 × ${ROOM_PPM.workday} ÷ ${figure(ppm.value)}`,
                hours,
                'hours',
                'OSHA permissible exposure limit, 8-hour average',
              ),
            ]
          : []),
      ],
      cautions: [
        'ventilateFirst',
        ...cautionIf(high >= ROOM_PPM.workday && high < ROOM_PPM.shortTerm, 'airAboveWorkdayLimit'),
        ...cautionIf(high >= ROOM_PPM.shortTerm && high < ROOM_PPM.danger, 'airAboveShortTermLimit'),
        ...cautionIf(high >= ROOM_PPM.danger, 'airDangerToLife'),
        'candleIsNoTest',
        'worksOutNotMeasured',
        ...errorCaution(litres, points),
      ],
    });
  },
});
