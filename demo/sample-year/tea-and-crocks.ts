import {
  bottle,
  draw,
  feed,
  goOn,
  know,
  noteBatch,
  rack,
  reading,
  seed,
  start,
  taste,
  throwOut,
} from './doings.ts';
import { momentMs, type Visit } from './telling.ts';

const TEA = '紅茶菌';

interface Brew {
  readonly name: string;
  readonly tea: readonly [name: string, amount: string];
  readonly begun: string;
  readonly looks: readonly (readonly [when: string, line: string])[];
}

/** One brew of sweet tea, begun with liquid from the culture's jar. */
function begun({ name, tea, begun: when, looks }: Brew): Visit[] {
  return [
    [
      when,
      start(name, 'tea jar', { as: 'kombucha', holds: '3 L', from: [tea, ['sugar', '210 g']] }),
      seed('tea jar', TEA, 'tea keeper', '300 ml'),
      feed(TEA, '300 ml sweet tea'),
    ],
    ...looks.map(([at, line]): Visit => [at, reading('tea jar', line)]),
  ];
}

/** The same, with what was bottled at its end and the part that went back to the culture. */
function brewed(brew: Brew & { readonly ended: string; readonly said: string }): Visit[] {
  return [
    ...begun(brew),
    [
      brew.ended,
      taste('tea jar', brew.said),
      rack('tea jar', 'tea keeper', '300 ml'),
      bottle('tea jar', 4, '700 ml', '200 ml'),
    ],
  ];
}

const tea: readonly Visit[] = [
  ...brewed({
    ...{ name: 'Black tea kombucha', tea: ['black tea', '18 g'], begun: '2025-12-10 18:00' },
    looks: [
      ['2025-12-13 18:00', 'pH 3.8 22C'],
      ['2025-12-17 18:00', 'pH 3.3 22C'],
      ['2025-12-21 18:00', 'pH 3.1, 0.52 %'],
    ],
    ...{ ended: '2025-12-22 18:00', said: 'Brisk. A day later would be too much.' },
  }),
  ...brewed({
    ...{ name: 'Green tea kombucha', tea: ['green tea', '20 g'], begun: '2026-02-04 18:00' },
    looks: [
      ['2026-02-07 18:00', 'pH 3.9 20C'],
      ['2026-02-12 18:00', 'pH 3.4 20C'],
      ['2026-02-17 18:00', 'pH 3.1, 0.48 %'],
    ],
    ...{ ended: '2026-02-18 18:00', said: 'Light and grassy.' },
  }),
  ...brewed({
    ...{ name: 'Easter kombucha', tea: ['black tea', '18 g'], begun: '2026-03-25 18:00' },
    looks: [
      ['2026-03-28 18:00', 'pH 3.8 21C'],
      ['2026-04-01 18:00', 'pH 3.3 21C'],
    ],
    ...{ ended: '2026-04-04 18:00', said: 'Round, hardly sharp.' },
  }),
  ...brewed({
    ...{ name: 'Hibiscus kombucha', tea: ['black tea and hibiscus', '22 g'], begun: '2026-06-10 18:00' },
    looks: [
      ['2026-06-12 18:00', 'pH 3.5 24C'],
      ['2026-06-15 18:00', 'pH 3.1 24C'],
    ],
    ...{ ended: '2026-06-18 18:00', said: 'Red, sour, gone in an evening.' },
  }),
  ...brewed({
    ...{ name: 'August kombucha', tea: ['green tea', '20 g'], begun: '2026-08-08 18:00' },
    looks: [
      ['2026-08-10 18:00', 'pH 3.7 25C'],
      ['2026-08-13 18:00', 'pH 3.1 25C'],
    ],
    ...{ ended: '2026-08-15 18:00', said: 'Fast in the heat.' },
  }),
  ...brewed({
    ...{ name: 'October kombucha', tea: ['black tea', '18 g'], begun: '2026-10-07 18:00' },
    looks: [
      ['2026-10-10 18:00', 'pH 3.8 21C'],
      ['2026-10-14 18:00', 'pH 3.3 21C'],
      ['2026-10-17 18:00', 'pH 3.1, 0.51 %'],
    ],
    ...{ ended: '2026-10-18 18:00', said: 'Like the first one.' },
  }),
  ...begun({
    ...{ name: 'November kombucha', tea: ['black tea', '18 g'], begun: '2026-11-17 18:00' },
    looks: [
      ['2026-11-19 18:00', 'pH 3.9 21C'],
      ['2026-11-21 18:20', 'pH 3.6 21C'],
      ['2026-11-23 09:00', 'pH 3.4 21C'],
    ],
  }),
];

const crocks: readonly Visit[] = [
  [
    '2026-01-05 16:00',
    start('Sauerkraut', 'kraut crock', {
      ...{ as: 'brinedVegetables', holds: '8 L', stage: 'lactic' },
      from: [
        ['white cabbage', '7 kg'],
        ['salt', '158 g'],
        ['caraway', '2 tsp'],
      ],
    }),
  ],
  ['2026-01-06 18:00', reading('kraut crock', 'pH 6.0 17C')],
  ['2026-01-07 18:00', reading('kraut crock', 'pH 5.6 17C')],
  ['2026-01-08 18:00', reading('kraut crock', 'pH 5.1 17C')],
  ['2026-01-09 18:00', reading('kraut crock', 'pH 4.7 17C')],
  ['2026-01-10 18:00', reading('kraut crock', 'pH 4.4 17C')],
  ['2026-01-17 18:00', reading('kraut crock', 'pH 3.8 16C')],
  ['2026-01-24 18:00', reading('kraut crock', 'pH 3.6 16C')],
  [
    '2026-02-07 18:00',
    reading('kraut crock', 'pH 3.5', { taste: 'Crisp. Enough.' }),
    goOn('kraut crock', 'maturing'),
  ],
  ['2026-03-01 18:00', draw('kraut crock', '3 L', 'to the cold larder in jars')],
  ['2026-04-11 18:00', draw('kraut crock', '3 L', 'eaten and given away')],
  ['2026-05-03 18:00', throwOut('kraut crock', '2 L', 'The last was soft.')],

  [
    '2026-07-18 16:00',
    start('Gherkins', 'crock', {
      ...{ as: 'brinedVegetables', holds: '4.2 L', stage: 'lactic' },
      from: [
        ['small cucumbers', '2.4 kg'],
        ['salt', '90 g'],
        ['dill, garlic, vine leaves', ''],
        ['water', '1.8 L'],
      ],
    }),
  ],
  ['2026-07-19 18:00', reading('crock', 'pH 5.6 22C')],
  ['2026-07-20 18:00', reading('crock', 'pH 4.8 22C')],
  ['2026-07-21 18:00', reading('crock', 'pH 4.3 23C')],
  ['2026-07-25 18:00', reading('crock', 'pH 3.7 22C')],
  [
    '2026-08-01 18:00',
    reading('crock', 'pH 3.5 22C', { taste: 'Half sour, snap like a twig.' }),
    goOn('crock', 'ready'),
  ],
  ['2026-08-20 18:00', draw('crock', '2 L', 'eaten')],
  ['2026-10-02 18:00', draw('crock', '2.2 L', 'the last of them')],

  [
    '2026-10-12 16:00',
    start('White cabbage', 'kraut crock', {
      ...{ as: 'brinedVegetables', holds: '8.4 L', stage: 'lactic' },
      from: [
        ['white cabbage', '7.4 kg'],
        ['salt', '167 g'],
        ['juniper', '20 berries'],
      ],
    }),
  ],
  ['2026-10-13 18:00', reading('kraut crock', 'pH 5.9 16C')],
  ['2026-10-14 18:20', reading('kraut crock', 'pH 5.3 16C')],
  ['2026-10-15 18:00', reading('kraut crock', 'pH 4.8 16C')],
  ['2026-10-16 19:00', reading('kraut crock', 'pH 4.4 16C')],
  ['2026-10-23 18:20', reading('kraut crock', 'pH 3.8 15C')],
  ['2026-10-30 18:40', reading('kraut crock', 'pH 3.6 15C')],
  ['2026-11-06 18:40', reading('kraut crock', 'pH 3.5, 1.6 % as lactic', { taste: 'Sour enough for us.' })],
  ['2026-11-07 11:00', goOn('kraut crock', 'maturing')],

  [
    '2026-11-14 16:00',
    start('Red cabbage', 'crock', {
      ...{ as: 'brinedVegetables', holds: '3.6 L', stage: 'lactic' },
      from: [
        ['red cabbage', '3 kg'],
        ['salt', '68 g'],
        ['apple', '1'],
      ],
    }),
  ],
  ['2026-11-15 18:20', reading('crock', 'pH 5.9 18C')],
  ['2026-11-16 18:40', reading('crock', 'pH 5.3 18C')],
  ['2026-11-17 18:40', reading('crock', 'pH 4.7 18C')],
  ['2026-11-18 18:20', reading('crock', 'pH 4.3 18C')],
  ['2026-11-20 18:00', reading('crock', 'pH 3.9 18C')],

  [
    '2026-11-20 16:00',
    start('مخلل اللفت', 'turnip crock', {
      ...{ as: 'brinedVegetables', holds: '2.4 L', stage: 'lactic' },
      from: [
        ['turnips', '1.3 kg'],
        ['beetroot', '1'],
        ['salt', '55 g'],
        ['water', '1.1 L'],
      ],
      note: 'The pink ones. From a friend of my mother.',
    }),
    know('turnip crock', {
      salting: { saltGrams: 55, vegetableGrams: 1300, waterGrams: 1100 },
      submersion: {
        ...{ checkedAtMs: momentMs('2026-11-20 16:00'), covered: true },
        ...{ exposedHours: 0, slimeColourOrMould: false },
      },
    }),
  ],
  ['2026-11-21 18:40', reading('turnip crock', 'pH 5.8 15C', { phBy: 'narrowStrip' })],
  ['2026-11-22 18:00', reading('turnip crock', 'pH 5.4 15C', { phBy: 'narrowStrip' })],
  [
    '2026-11-23 18:00',
    reading('turnip crock', 'pH 5.0 15C', { phBy: 'narrowStrip' }),
    noteBatch('مخلل اللفت', 'All under the brine; the stone holds them down.'),
  ],
  ['2026-11-24 18:00', reading('turnip crock', 'pH 4.8 15C', { phBy: 'narrowStrip' })],
];

/** Sweet tea and salted vegetables. */
export const teaAndCrocks: readonly Visit[] = [...tea, ...crocks];
