import {
  clean,
  close,
  describePlace,
  describeShelf,
  describeVessel,
  lend,
  move,
  place,
  retire,
  shelf,
  vessel,
} from './doings.ts';
import type { Visit } from './telling.ts';

const A = 'top shelf';
const B = 'floor shelf';
const C = 'stone bench';
const D = 'back rack';

/** The house and what stands in it, and what happened to the vessels themselves. */
export const placesAndVessels: readonly Visit[] = [
  [
    '2025-12-01 08:30',
    place('Pantry', 'North wall, 17 to 21 °C, beside the kitchen.'),
    place('Cellar', 'Under the mill floor, 9 °C in winter and 16 °C in August.'),
    shelf('Pantry', A, 8),
    shelf('Pantry', B, 8),
    shelf('Cellar', C, 20),
    shelf('Cellar', D, 6),
  ],
  [
    '2025-12-01 09:00',
    vessel('bess', { as: 'jar', holds: '2 L', closed: 'cloth', at: [A, 1] }),
    vessel('jar 2a', { as: 'jar', holds: '2 L', closed: 'cloth', at: [A, 2] }),
    vessel('jar 2b', { as: 'jar', holds: '2 L', closed: 'cloth', at: [A, 3] }),
    vessel('crock', {
      ...{ as: 'crock', holds: '5 L', closed: 'lid', named: "Gran's crock", at: [A, 4] },
      note: 'The weight is the flat stone from the stream. Boil it.',
    }),
    vessel('rye jar', { as: 'jar', holds: '500 ml', closed: 'lid', at: [A, 5] }),
    vessel('flask', { as: 'flask', holds: '1 L', closed: 'airlock', at: [A, 6] }),
    vessel('long bottle 1', { as: 'bottle', holds: '750 ml', closed: 'cork', at: [A, 7] }),
    vessel('long bottle 2', { as: 'bottle', holds: '750 ml', closed: 'cork', at: [A, 8] }),
    vessel('tea jar', { as: 'jar', holds: '4 L', closed: 'cloth', named: 'Tea jar', at: [B, 8] }),
    vessel('jar 1', { as: 'jar', holds: '1 L', closed: 'lid', at: [C, 10] }),
  ],
  [
    '2025-12-01 09:44',
    vessel('jug 1', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [B, 1] }),
    vessel('jug 2', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [B, 2] }),
    vessel('jug 3', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [B, 3] }),
    vessel('big jug', { as: 'demijohn', holds: '10 L', closed: 'airlock', named: 'Big jug', at: [B, 4] }),
    vessel('jug 4', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [B, 5] }),
    vessel('jug 5', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [B, 6] }),
    vessel('pear jar', { as: 'jar', holds: '3 L', closed: 'lid', at: [B, 7] }),
    vessel('old jug', { as: 'demijohn', holds: '5 L', closed: 'open', at: [C, 15] }),
  ],
  [
    '2025-12-01 10:20',
    vessel('oak', {
      ...{ as: 'cask', holds: '30 L', closed: 'cloth', named: 'The oak', at: [C, 1] },
      note: 'Lies on its side, bung hole up under linen. Never let it fall below two thirds.',
    }),
    vessel('carboy 1', { as: 'demijohn', holds: '23 L', closed: 'bung', at: [C, 2] }),
    vessel('bucket 25', { as: 'bucket', holds: '25 L', closed: 'lid', at: [C, 3] }),
    vessel('carboy 2', { as: 'demijohn', holds: '23 L', closed: 'airlock', at: [C, 5] }),
    vessel('kraut crock', { as: 'crock', holds: '10 L', closed: 'lid', named: 'Kraut crock', at: [C, 6] }),
    vessel('jug 6', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [C, 7] }),
    vessel('jug 7', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [C, 8] }),
    vessel('jug 8', { as: 'demijohn', holds: '5 L', closed: 'airlock', at: [C, 9] }),
    vessel('turnip crock', { as: 'crock', holds: '3 L', closed: 'lid', at: [C, 11] }),
    vessel('wide jar', { as: 'jar', holds: '5 L', closed: 'cloth', named: 'Wide jar', at: [C, 12] }),
    vessel('codlin jar', { as: 'jar', holds: '3 L', closed: 'cloth', at: [C, 13] }),
    vessel('berry jar', { as: 'jar', holds: '3 L', closed: 'lid', at: [C, 14] }),
    vessel('bucket 15', { as: 'bucket', holds: '15 L', closed: 'lid', at: [C, 16] }),
  ],
  [
    '2025-12-01 11:20',
    vessel('bottle d1', { as: 'bottle', holds: '750 ml', closed: 'cork', at: [D, 1] }),
    vessel('martha', { as: 'jar', holds: '1.5 L', closed: 'cloth', at: [D, 2] }),
    vessel('tea keeper', { as: 'jar', holds: '2 L', closed: 'cloth', named: 'Tea keeper', at: [D, 5] }),
    vessel('kefir jar', { as: 'jar', holds: '1 L', closed: 'cloth', note: 'On the kitchen sill.' }),
    vessel('lent jar', {
      as: 'jar',
      holds: '3 L',
      closed: 'open',
      note: 'The lid is in the kitchen drawer.',
    }),
    vessel('steel pail', {
      ...{ as: 'bucket', holds: '30 L', of: 'stainless', closed: 'open', named: 'Steel pail' },
      note: 'In the shed, for pressing days.',
    }),
  ],
  [
    '2026-02-21 09:00',
    vessel('little oak', {
      ...{ as: 'cask', holds: '5 L', closed: 'bung', named: 'Little oak', at: [D, 4] },
      note: 'Second-hand. Soaked four days until it held water.',
    }),
    vessel('magnum', { as: 'bottle', holds: '1.5 L', closed: 'cork', at: [C, 18] }),
  ],
  ['2026-02-21 08:50', describeShelf(D, 8)],
  ['2026-03-07 16:00', vessel('young bess', { as: 'jar', holds: '2 L', closed: 'cloth', at: [D, 3] })],
  ['2026-05-09 11:00', retire('old jug', 'A star crack at the foot. Broken up for the garden.')],
  ['2026-08-15 08:40', vessel('bottle d2', { as: 'bottle', holds: '750 ml', closed: 'cork', at: [D, 6] })],
  [
    '2026-11-02 09:10',
    close('jug 5', 'open'),
    clean('jug 5', 'washed', '2026-11-29 09:00', 'With soda, rinsed, drying upside down.'),
  ],
  ['2026-10-18 16:00', lend('lent jar', 'Odile', 'For her pears.')],
  ['2026-11-07 10:20', move('jar 1', C, 4)],
  [
    '2026-11-08 16:00',
    describePlace(
      'Cellar',
      'Under the mill floor, 9 °C in winter and 16 °C in August. Door sealed in November.',
    ),
    describeVessel('carboy 2', {
      ...{ as: 'demijohn', holds: '23 L', closed: 'airlock' },
      note: 'Hairline scratch at the shoulder. Never shift it full.',
    }),
  ],
];
