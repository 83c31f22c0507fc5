import {
  add,
  bottle,
  close,
  describeBatch,
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

const plums: readonly Visit[] = [
  [
    '2025-12-02 10:20',
    start('Plum wine', 'jug 7', {
      ...{ as: 'wine', holds: '4.6 L', stage: 'maturing', measured: '0.998 11C abv 8.9 %' },
      ...{ from: [['plums', '4 kg']], note: 'Begun in August, before this book.' },
    }),
  ],
  [
    '2026-02-14 11:00',
    rack('jug 7', 'wide jar', '2.4 L', { as: ['Plum vinegar', 'fruitVinegar'], stage: 'waiting' }),
    pour('wide jar', 'water', 'boiled water, cooled', '600 ml'),
    seed('wide jar', 'Red Martha', 'martha', '300 ml'),
    reading('wide jar', '1.1 % 18C'),
  ],
  ['2026-02-22 11:00', reading('wide jar', '1.2 % 18C')],
  ['2026-03-01 11:00', reading('wide jar', '1.9 % 18C')],
  ['2026-03-08 10:00', reading('wide jar', '2.8 % 18C')],
  ['2026-03-15 11:00', reading('wide jar', '3.6 % 19C')],
  ['2026-03-22 09:30', reading('wide jar', '4.4 % 19C')],
  ['2026-03-29 11:00', reading('wide jar', '5.1 % 19C')],
  ['2026-04-05 11:00', reading('wide jar', '5.7 % 19C')],
  ['2026-04-12 11:00', reading('wide jar', '6.1 % 19C')],
  ['2026-04-19 11:00', reading('wide jar', '6.2 % pH 2.8 19C')],
  ['2026-04-20 18:00', goOn('wide jar', 'maturing'), close('wide jar', 'lid')],
  [
    '2026-06-14 11:00',
    settle('wide jar', '3.2 L', 'evaporation'),
    reading('wide jar', '6.1 % pH 2.8', {
      ...{ acidityBy: 'laboratory', acidityWithin: 0.05, taste: 'Plum stones and almond. The best yet.' },
    }),
    rack('wide jar', 'long bottle 1', '720 ml', { stage: 'ready' }),
    rack('wide jar', 'long bottle 2', '720 ml', { stage: 'ready' }),
    bottle('wide jar', 5, '330 ml', '110 ml', 'One to the laboratory with the letter.'),
  ],
  [
    '2026-03-01 12:00',
    draw('jug 7', '600 ml', 'drunk at a birthday'),
    rack('jug 7', 'magnum', '1.45 L', { lees: '0.15 L', stage: 'ready' }),
  ],
];

const damsons: readonly Visit[] = [
  [
    '2026-09-20 13:00',
    start('Damson wine', 'bucket 15', {
      ...{ as: 'wine', holds: '10.5 L', measured: '1.082 19C pH 3.3, 0.9 % as malic' },
      from: [
        ['damsons', '5 kg'],
        ['sugar', '1.9 kg'],
        ['water', '7 L'],
      ],
    }),
    add('bucket 15', 'sulfite', 'Campden', '2 tablets'),
  ],
  [
    '2026-09-21 18:00',
    pitchPacket('bucket 15', 'wine yeast, dry', '5 g'),
    add('bucket 15', 'nutrient', 'yeast food', '1 tsp'),
  ],
  ['2026-09-23 08:00', reading('bucket 15', '1.076 20C')],
  ['2026-09-25 08:00', reading('bucket 15', '1.069 20C')],
  ['2026-09-28 08:00', reading('bucket 15', '1.061 19C')],
  ['2026-10-02 08:00', reading('bucket 15', '1.052 18C')],
  [
    '2026-10-03 11:00',
    rack('bucket 15', 'big jug', '9.2 L', { lees: '1.3 L' }),
    noteBatch('Damson wine', 'Fruit pressed off and thrown on the compost.'),
  ],
  [
    '2026-10-04 09:00',
    describeBatch(
      'Damson wine',
      'wine',
      'Meant to end dry, near 0.996. The stones were left in for ten days.',
    ),
  ],
  ['2026-10-07 08:00', reading('big jug', '1.046 17C')],
  ['2026-10-12 08:00', reading('big jug', '1.041 16C')],
  ['2026-10-18 08:00', reading('big jug', '1.037 15C')],
  ['2026-10-25 08:00', reading('big jug', '1.034 15C')],
  ['2026-11-02 08:00', reading('big jug', '1.032 14C')],
  ['2026-11-08 08:00', reading('big jug', '1.031 14C')],
  ['2026-11-13 08:00', reading('big jug', '1.031 14C')],
  [
    '2026-11-17 08:20',
    reading('big jug', '1.031 15C', { taste: 'Sweet, clean, no bubbles in the lock.' }),
    goOn('big jug', 'held', 'Stands at 1.031 for nine days. Too cold beside the door?'),
  ],
  ['2026-11-19 18:40', add('big jug', 'nutrient', 'yeast food', '1 tsp'), reading('big jug', '1.031 18C')],
  [
    '2026-11-21 18:00',
    reading('big jug', '1.031 20C', { taste: 'Wrapped in a blanket by the stove. Nothing yet.' }),
  ],
];

const berries: readonly Visit[] = [
  [
    '2026-08-23 14:00',
    start('Blackberry wine', 'bucket 15', {
      ...{ as: 'wine', holds: '6 L', measured: '1.078 21C pH 3.2' },
      from: [
        ['blackberries', '2.5 kg'],
        ['sugar', '1.1 kg'],
        ['water', '4 L'],
      ],
    }),
  ],
  ['2026-08-24 18:00', pitchPacket('bucket 15', 'wine yeast, dry', '5 g')],
  ['2026-08-26 08:00', reading('bucket 15', '1.066 22C')],
  ['2026-08-28 08:00', reading('bucket 15', '1.051 23C')],
  ['2026-08-30 08:00', reading('bucket 15', '1.036 23C')],
  ['2026-09-02 08:00', reading('bucket 15', '1.021 22C')],
  ['2026-09-05 08:00', reading('bucket 15', '1.010 21C')],
  ['2026-09-06 12:00', rack('bucket 15', 'jug 7', '4.9 L', { lees: '1.1 L' })],
  ['2026-09-11 08:20', reading('jug 7', '1.002 18C')],
  ['2026-09-16 08:20', reading('jug 7', '0.997 17C')],
  ['2026-09-20 08:00', reading('jug 7', '0.996 17C')],
  ['2026-09-24 08:00', reading('jug 7', '0.996 17C')],
  ['2026-09-27 15:00', goOn('jug 7', 'settling')],
  ['2026-10-20 18:00', goOn('jug 7', 'maturing', 'bright'), add('jug 7', 'sulfite', 'Campden', '1 tablet')],
  ['2026-11-14 18:00', reading('jug 7', '0.996 12C SO2 26 mg/L', { taste: 'Thin, very good colour.' })],
  [
    '2026-11-21 17:00',
    rack('jug 7', 'berry jar', '1.9 L', { as: ['Blackberry vinegar', 'fruitVinegar'], stage: 'waiting' }),
    pour('berry jar', 'water', 'boiled water, cooled', '400 ml'),
    seed('berry jar', 'Red Martha', 'martha', '200 ml'),
    reading('berry jar', '1.0 % 13C'),
  ],
  [
    '2026-11-14 15:00',
    start('Sloe wine', 'bucket 15', {
      ...{ as: 'wine', holds: '8.6 L', measured: '1.063 18C pH 3.3' },
      from: [
        ['sloes, frosted', '3 kg'],
        ['sugar', '1.4 kg'],
        ['raisins', '250 g'],
        ['water', '6.5 L'],
      ],
    }),
    add('bucket 15', 'sugar', 'sugar', '600 g', '380 ml'),
    reading('bucket 15', '1.088 18C'),
  ],
  [
    '2026-11-15 18:00',
    pitchPacket('bucket 15', 'wine yeast, dry', '5 g'),
    add('bucket 15', 'nutrient', 'yeast food', '1 tsp'),
  ],
  ['2026-11-17 08:40', reading('bucket 15', '1.083 18C')],
  ['2026-11-19 08:40', reading('bucket 15', '1.074 19C')],
  ['2026-11-21 08:40', reading('bucket 15', '1.063 19C')],
  ['2026-11-23 08:40', reading('bucket 15', '1.052 19C', { taste: 'Bitter skins. Press tomorrow week.' })],
];

const otherTastes: readonly Visit[] = [
  ['2026-09-13 12:00', taste('magnum', 'Still sound. Keep it for the new year.')],
];

/** Stone fruit and berries: wines, the vinegars from them, and the one that stuck. */
export const plumsAndBerries: readonly Visit[] = [...plums, ...damsons, ...berries, ...otherTastes];
