import {
  add,
  bottle,
  close,
  draw,
  goOn,
  noteBatch,
  pitchPacket,
  pour,
  rack,
  reading,
  seed,
  settle,
  start,
  taste,
} from './doings.ts';
import type { Visit } from './telling.ts';

const quinces: readonly Visit[] = [
  [
    '2025-12-06 14:00',
    start('Quince wine', 'jug 4', {
      ...{ as: 'wine', holds: '4.6 L', measured: '1.085 15C pH 3.4, 0.8 % as malic' },
      from: [
        ['quinces, grated', '3 kg'],
        ['sugar', '900 g'],
        ['water', '3.5 L'],
      ],
    }),
    pitchPacket('jug 4', 'wine yeast, dry', '3 g'),
  ],
  ['2025-12-09 08:20', reading('jug 4', '1.080 18C')],
  ['2025-12-13 08:20', reading('jug 4', '1.066 19C')],
  ['2025-12-18 08:20', reading('jug 4', '1.049 19C')],
  ['2025-12-24 08:50', reading('jug 4', '1.032 18C')],
  ['2026-01-02 09:20', reading('jug 4', '1.014 18C')],
  ['2026-01-10 10:00', reading('jug 4', '1.003 18C')],
  ['2026-01-18 09:00', reading('jug 4', '0.998 18C')],
  ['2026-01-24 09:00', reading('jug 4', '0.995 18C')],
  ['2026-01-30 09:00', reading('jug 4', '0.995 18C')],
  ['2026-02-01 11:00', rack('jug 4', 'jug 1', '4.2 L', { lees: '0.4 L', stage: 'settling' })],
  [
    '2026-03-08 14:00',
    rack('jug 1', 'jug 4', '4 L', { lees: '0.2 L', stage: 'maturing' }),
    add('jug 4', 'sulfite', 'potassium metabisulphite', '0.3 g'),
    close('jug 4', 'bung'),
    reading('jug 4', '0.995 14C SO2 34 mg/L'),
  ],
  ['2026-05-10 14:00', taste('jug 4', 'Perfume first, then a long dry end.')],
  ['2026-07-12 14:00', taste('jug 4', 'Closed up. Say nothing, wait.')],
  [
    '2026-09-27 16:00',
    reading('jug 4', '0.995 15C SO2 21 mg/L pH 3.4', { taste: 'Open again. Honey and smoke.' }),
  ],
];

const meads: readonly Visit[] = [
  [
    '2026-01-18 15:00',
    start('Heather honey mead', 'jug 8', {
      ...{ as: 'mead', holds: '4.7 L', measured: '1.098 20C' },
      from: [
        ['heather honey', '1.6 kg'],
        ['spring water', '3.6 L'],
      ],
    }),
    pitchPacket('jug 8', 'mead yeast, dry', '5 g'),
  ],
  ['2026-01-21 18:00', add('jug 8', 'nutrient', 'yeast food', '2 g')],
  ['2026-01-22 08:00', reading('jug 8', '1.092 18C')],
  ['2026-01-25 18:00', add('jug 8', 'nutrient', 'yeast food', '2 g')],
  ['2026-01-27 08:00', reading('jug 8', '1.081 18C')],
  ['2026-02-03 08:00', reading('jug 8', '1.066 17C')],
  ['2026-02-12 08:00', reading('jug 8', '1.049 17C')],
  ['2026-02-22 08:00', reading('jug 8', '1.034 17C')],
  ['2026-03-05 08:00', reading('jug 8', '1.021 17C')],
  ['2026-03-19 08:00', reading('jug 8', '1.012 17C')],
  ['2026-04-05 08:00', reading('jug 8', '1.007 17C')],
  ['2026-04-18 08:00', reading('jug 8', '1.004 18C')],
  ['2026-04-25 08:00', reading('jug 8', '1.004 18C')],
  ['2026-05-01 11:00', rack('jug 8', 'jug 6', '4.3 L', { lees: '0.4 L', stage: 'settling' })],
  ['2026-06-14 14:00', rack('jug 6', 'jug 8', '4.2 L', { lees: '0.1 L', stage: 'maturing' })],
  ['2026-08-09 14:00', taste('jug 8', 'Warm and a little hot still.')],
  ['2026-10-04 14:00', reading('jug 8', '1.003 14C', { taste: 'Heather at last.' })],

  [
    '2026-06-20 16:00',
    start('Elderflower mead', 'jug 3', {
      ...{ as: 'mead', holds: '4.8 L', measured: '1.072 21C' },
      from: [
        ['lime honey', '1.2 kg'],
        ['elderflowers', '30 heads'],
        ['lemons', '2'],
        ['water', '4 L'],
      ],
    }),
  ],
  [
    '2026-06-21 18:00',
    pitchPacket('jug 3', 'mead yeast, dry', '5 g'),
    add('jug 3', 'nutrient', 'yeast food', '2 g'),
  ],
  ['2026-06-26 08:00', reading('jug 3', '1.066 22C')],
  ['2026-07-04 08:00', reading('jug 3', '1.052 22C')],
  ['2026-07-15 08:00', reading('jug 3', '1.037 23C')],
  ['2026-07-28 08:00', reading('jug 3', '1.024 23C')],
  ['2026-08-12 08:20', reading('jug 3', '1.013 22C')],
  ['2026-08-30 08:20', reading('jug 3', '1.005 21C')],
  ['2026-09-20 08:20', reading('jug 3', '1.000 19C')],
  ['2026-10-11 08:00', reading('jug 3', '0.998 18C')],
  ['2026-10-25 08:20', reading('jug 3', '0.997 18C')],
  ['2026-11-01 08:20', reading('jug 3', '0.997 18C')],
  ['2026-11-08 14:00', goOn('jug 3', 'settling', 'fallen bright above the lees')],
];

const rhubarb: readonly Visit[] = [
  [
    '2026-05-24 14:00',
    start('Rhubarb wine', 'bucket 15', {
      ...{ as: 'wine', holds: '5.2 L', measured: '1.080 18C pH 3.1' },
      from: [
        ['rhubarb, frozen and thawed', '3 kg'],
        ['sugar', '1.15 kg'],
        ['water', '3 L'],
      ],
      note: 'Chalk taken off the worst of the acid.',
    }),
  ],
  [
    '2026-05-25 08:00',
    add('bucket 15', 'other', 'precipitated chalk', '6 g'),
    pitchPacket('bucket 15', 'wine yeast, dry', '5 g'),
  ],
  ['2026-05-27 08:00', reading('bucket 15', '1.070 20C')],
  ['2026-05-30 08:00', reading('bucket 15', '1.050 21C')],
  ['2026-06-03 08:00', reading('bucket 15', '1.028 21C')],
  ['2026-06-07 08:00', reading('bucket 15', '1.012 20C')],
  ['2026-06-08 18:00', rack('bucket 15', 'jug 1', '4.6 L', { lees: '0.6 L' })],
  ['2026-06-14 08:00', reading('jug 1', '1.002 19C')],
  ['2026-06-21 08:00', reading('jug 1', '0.996 19C')],
  ['2026-06-25 08:00', reading('jug 1', '0.995 19C')],
  ['2026-06-28 08:00', reading('jug 1', '0.995 19C')],
  ['2026-07-05 11:00', rack('jug 1', 'jug 6', '4.3 L', { lees: '0.3 L', stage: 'settling' })],
  ['2026-08-02 11:00', goOn('jug 6', 'maturing')],
  ['2026-09-27 17:00', taste('jug 6', 'Like biting a green stalk, in a good way.')],
  [
    '2026-10-30 15:00',
    reading('jug 6', '0.995 13C SO2 24 mg/L'),
    bottle('jug 6', 5, '750 ml', '200 ml', 'Clear glass, straight corks.'),
    draw('jug 6', '350 ml', 'supper'),
  ],
];

/** The cask that is never emptied: drawn, and filled again with wine. */
const oak: readonly Visit[] = [
  [
    '2025-12-02 11:00',
    start('House red vinegar', 'oak', {
      ...{ as: 'fruitVinegar', holds: '24 L', stage: 'vinegar', measured: '6.1 % pH 2.9 13C' },
      note: 'Begun in 2023. Drawn and filled up, never emptied.',
    }),
    seed('oak', 'Red Martha', 'martha', '100 ml'),
  ],
  ['2025-12-28 11:00', reading('oak', '6.2 % 12C')],
  ['2026-01-25 11:00', reading('oak', '6.2 % 11C', { taste: 'Deep. Wood and cherries.' })],
  [
    '2026-02-20 17:00',
    start('Table wine, red', 'big jug', {
      ...{ as: 'wine', holds: '5.2 L', stage: 'maturing', measured: 'abv 12 %' },
      note: 'Bought in a box, without a name.',
    }),
    pour('big jug', 'water', 'boiled water, cooled', '2 L'),
    reading('oak', '6.2 % 11C'),
  ],
  [
    '2026-02-21 14:00',
    bottle('oak', 12, '330 ml', '40 ml', 'Spring draw.'),
    rack('big jug', 'oak', '5 L'),
    reading('oak', '5.1 % 12C'),
  ],
  ['2026-03-08 12:00', reading('oak', '5.6 % 12C')],
  ['2026-03-22 14:00', reading('oak', '6.0 % 12C')],
  ['2026-04-12 12:00', reading('oak', '6.3 % 13C')],
  ['2026-05-10 12:00', reading('oak', '6.4 % pH 2.9 14C')],
  [
    '2026-05-30 11:00',
    reading('oak', '6.4 % 14C'),
    bottle('oak', 9, '330 ml', '30 ml', 'Early summer draw.'),
    rack('big jug', 'oak', '2.2 L'),
  ],
  ['2026-06-07 11:00', reading('oak', '5.9 % 15C')],
  ['2026-06-21 11:00', reading('oak', '6.2 % 15C')],
  ['2026-07-12 11:00', reading('oak', '6.4 % 16C'), settle('oak', '23.5 L', 'evaporation')],
  ['2026-08-16 12:00', reading('oak', '6.5 % 16C', { taste: 'As it should be.' })],
  [
    '2026-09-12 11:00',
    reading('oak', '6.5 % pH 2.9 15C'),
    bottle('oak', 12, '330 ml', '40 ml', 'Autumn draw.'),
    rack('jug 1', 'oak', '4.5 L'),
    draw('jug 1', '200 ml', 'tasted'),
    noteBatch('House red vinegar', 'Filled with elderberry wine this time.'),
  ],
  ['2026-09-20 12:00', reading('oak', '5.4 % 15C')],
  ['2026-10-04 12:00', reading('oak', '6.0 % 14C')],
  ['2026-10-18 12:00', reading('oak', '6.4 % 14C')],
  ['2026-11-06 12:00', reading('oak', '6.6 % 13C')],
  ['2026-11-20 12:00', reading('oak', '6.7 % pH 2.9 12C 23.6 L', { taste: 'Dark fruit, a clean bite.' })],

  [
    '2026-06-28 14:00',
    start('Elderberry wine', 'big jug', {
      ...{ as: 'wine', holds: '5.6 L', measured: '1.076 20C' },
      from: [
        ["last year's elderberries, frozen", '1.4 kg'],
        ['sugar', '1.05 kg'],
        ['water', '4.2 L'],
      ],
    }),
  ],
  [
    '2026-06-29 08:00',
    add('big jug', 'acid', 'tartaric acid', '4 g'),
    pitchPacket('big jug', 'wine yeast, dry', '5 g'),
  ],
  ['2026-07-01 08:00', reading('big jug', '1.068 21C')],
  ['2026-07-04 08:20', reading('big jug', '1.048 22C')],
  ['2026-07-08 08:00', reading('big jug', '1.026 22C')],
  ['2026-07-12 08:00', reading('big jug', '1.011 22C')],
  ['2026-07-17 08:00', reading('big jug', '1.002 21C')],
  ['2026-07-24 08:00', reading('big jug', '0.998 21C')],
  ['2026-07-28 08:20', reading('big jug', '0.998 21C')],
  ['2026-08-01 11:00', goOn('big jug', 'settling')],
  ['2026-08-30 14:00', rack('big jug', 'jug 1', '4.7 L', { lees: '0.9 L', stage: 'maturing' })],
];

/** Mead, country wines and the oak. */
export const meadWineAndOak: readonly Visit[] = [...quinces, ...meads, ...rhubarb, ...oak];
