import {
  add,
  bottle,
  close,
  draw,
  goOn,
  heat,
  know,
  noteBatch,
  overrule,
  pitchCulture,
  photo,
  pitchPacket,
  pour,
  rack,
  reading,
  seed,
  seedBought,
  settle,
  start,
  taste,
} from './doings.ts';
import { DRAWN } from './drawn.ts';
import { momentMs, type Visit } from './telling.ts';

const lastWinter: readonly Visit[] = [
  [
    '2025-12-02 10:00',
    start('Cellar cider', 'jug 3', {
      ...{ as: 'cider', holds: '4.5 L', stage: 'maturing', measured: '0.999 11C abv 6.4 %' },
      ...{ from: [['mixed apples, pressed', '9 kg']], note: 'Begun in October, before this book.' },
    }),
    start('Perry 2025', 'carboy 1', {
      ...{ as: 'cider', holds: '22 L', stage: 'settling', measured: '1.004 11C pH 3.7' },
      ...{ from: [['perry pears', '38 kg']], note: 'Pressed 12 October, before this book.' },
    }),
  ],
  [
    '2025-12-03 18:00',
    start('Winter cider', 'jug 1', {
      ...{ as: 'cider', holds: '4.8 L', measured: '1.055 12C pH 3.5, 0.62 % as malic' },
      from: [
        ['cooking apples', '5 kg'],
        ['russets', '3.5 kg'],
      ],
    }),
  ],
  ['2025-12-04 18:10', add('jug 1', 'sulfite', 'Campden', '1 tablet')],
  ['2025-12-05 19:00', pitchPacket('jug 1', 'cider yeast, dry', '3 g')],
  ['2025-12-08 08:00', reading('jug 1', '1.051 16C')],
  ['2025-12-11 08:00', reading('jug 1', '1.041 17C')],
  ['2025-12-15 08:00', reading('jug 1', '1.028 17C')],
  ['2025-12-19 08:00', reading('jug 1', '1.016 17C')],
  ['2025-12-24 08:30', reading('jug 1', '1.007 16C')],
  ['2026-01-02 09:00', reading('jug 1', '1.000 16C')],
  ['2026-01-07 09:00', reading('jug 1', '0.999 16C')],
  [
    '2026-01-10 11:00',
    reading('jug 1', '0.999 16C'),
    rack('jug 1', 'jug 2', '4.4 L', { lees: '0.4 L', stage: 'settling' }),
  ],
  ['2026-02-01 15:00', goOn('jug 2', 'maturing', 'clear')],
  [
    '2026-04-18 11:00',
    reading('jug 2', '0.998 13C SO2 18 mg/L', { taste: 'Sharp and clean, a little thin. Good with pork.' }),
    bottle('jug 2', 5, '750 ml', '100 ml', 'Green glass, crown caps, no sugar.'),
    draw('jug 2', '550 ml', 'to the pot'),
  ],

  ['2025-12-20 14:00', rack('carboy 1', 'carboy 2', '21.4 L', { lees: '0.6 L' })],
  ['2026-01-24 14:00', reading('carboy 2', '1.003 9C'), goOn('carboy 2', 'maturing')],
  ['2026-04-06 14:00', taste('carboy 2', 'Still tannic. Leave it.')],
  ['2026-06-28 14:00', taste('carboy 2', 'Softer. Pear skin and honey.')],
  [
    '2026-08-29 14:00',
    rack('carboy 2', 'carboy 1', '21 L', { lees: '0.4 L' }),
    reading('carboy 1', '1.002 15C SO2 12 mg/L'),
  ],
  ['2026-10-03 14:00', taste('carboy 1', 'Ready by Christmas, I think.')],
  [
    '2026-11-10 17:00',
    reading('carboy 1', '20.1 L 11C'),
    noteBatch('Perry 2025', 'The level is below the shoulder. Was the bung loose?'),
  ],

  [
    '2025-12-21 11:00',
    start('Réserve Reinette', 'jug 6', {
      ...{ as: 'cider', holds: '4.7 L', measured: '1.058 10C pH 3.4' },
      from: [['Reinette apples, a month on straw', '9 kg']],
    }),
    pitchCulture('jug 6', 'Perry yeast'),
  ],
  ['2025-12-27 11:00', reading('jug 6', '1.054 11C')],
  ['2026-01-04 11:00', reading('jug 6', '1.043 11C')],
  ['2026-01-14 11:00', reading('jug 6', '1.029 11C')],
  ['2026-01-25 11:00', reading('jug 6', '1.016 10C')],
  ['2026-02-08 11:00', reading('jug 6', '1.006 10C')],
  ['2026-02-20 11:00', reading('jug 6', '1.002 10C')],
  ['2026-02-27 11:00', reading('jug 6', '1.002 10C')],
  ['2026-02-28 11:00', rack('jug 6', 'little oak', '4.3 L', { lees: '0.4 L', stage: 'maturing' })],
  ['2026-04-25 11:00', taste('little oak', 'Vanilla over everything. Wait.')],
  ['2026-06-27 11:00', taste('little oak', 'The oak is calmer. Apple is back.')],
  [
    '2026-08-16 11:00',
    reading('little oak', '1.000 15C', { taste: 'Just right. Fill one bottle now.' }),
    rack('little oak', 'bottle d2', '730 ml', { stage: 'ready' }),
    settle('little oak', '3.4 L', 'evaporation'),
  ],
  ['2026-10-25 11:00', taste('little oak', 'Round. Nothing more to gain after New Year.')],
];

const vinegarsOfTheYear: readonly Visit[] = [
  [
    '2026-01-17 10:00',
    rack('jug 3', 'jar 2a', '1.5 L', { as: ['Apple vinegar 1', 'fruitVinegar'], stage: 'waiting' }),
    seed('jar 2a', 'Old Bess', 'bess', '300 ml'),
    reading('jar 2a', '1.5 % pH 3.3 19C'),
  ],
  ['2026-01-24 10:00', reading('jar 2a', '1.5 % 19C', { taste: 'A film like breath on a window.' })],
  ['2026-01-31 10:00', reading('jar 2a', '1.9 % 19C')],
  ['2026-02-07 10:00', reading('jar 2a', '2.6 % 19C')],
  ['2026-02-14 09:00', reading('jar 2a', '3.4 % 20C')],
  ['2026-02-21 10:00', reading('jar 2a', '4.2 % 20C')],
  ['2026-02-28 10:00', reading('jar 2a', '4.9 % 19C')],
  ['2026-03-07 10:00', reading('jar 2a', '5.5 % 20C', { taste: 'Sharp. Still a breath of cider.' })],
  ['2026-03-14 10:00', reading('jar 2a', '5.8 % 20C')],
  [
    '2026-03-22 10:30',
    reading('jar 2a', '5.9 % pH 2.9', { taste: 'All vinegar now.' }),
    rack('jar 2a', 'bess', '300 ml'),
    rack('jar 2a', 'bottle d1', '740 ml', { stage: 'ready' }),
    bottle('jar 2a', 2, '330 ml', '100 ml'),
    overrule('bottle d1', 'labelAsVinegar', 'Only for our own salad. Titrated twice, 5.9 both times.'),
  ],
  [
    '2026-04-03 10:00',
    rack('jug 3', 'jar 2b', '1.4 L', { as: ['Apple vinegar 2', 'fruitVinegar'], stage: 'waiting' }),
    seed('jar 2b', 'Old Bess', 'bess', '250 ml'),
    reading('jar 2b', '1.4 % 19C'),
  ],
  ['2026-04-12 10:30', reading('jar 2b', '1.5 % 19C')],
  ['2026-04-19 10:00', reading('jar 2b', '2.3 % 20C')],
  ['2026-04-26 10:30', reading('jar 2b', '3.2 % 20C')],
  ['2026-05-03 10:00', reading('jar 2b', '4.1 % 20C')],
  ['2026-05-10 10:30', reading('jar 2b', '4.9 % 20C')],
  ['2026-05-17 10:00', reading('jar 2b', '5.6 % 21C')],
  [
    '2026-05-24 10:00',
    heat('jar 2b', 70, 10, 'In a water bath, so that no new mother grows in the bottles.'),
    reading('jar 2b', '5.9 % pH 2.8'),
    bottle('jar 2b', 4, '330 ml', '80 ml'),
    rack('jar 2b', 'bess', '250 ml'),
  ],
  ['2026-05-02 19:00', draw('jug 3', '800 ml', 'drunk with the first asparagus')],

  [
    '2026-07-26 16:00',
    start('Codlin vinegar', 'jug 5', {
      ...{ as: 'fruitVinegar', holds: '4.6 L', measured: '1.046 21C pH 3.2' },
      from: [['early codlins, pressed', '8 kg']],
    }),
  ],
  ['2026-07-27 08:00', pitchPacket('jug 5', 'cider yeast, dry', '3 g')],
  ['2026-07-29 08:00', reading('jug 5', '1.038 22C')],
  ['2026-07-31 08:00', reading('jug 5', '1.024 23C')],
  ['2026-08-02 08:00', reading('jug 5', '1.012 23C')],
  ['2026-08-05 08:00', reading('jug 5', '1.003 22C')],
  ['2026-08-09 08:00', reading('jug 5', '0.999 21C')],
  ['2026-08-12 08:00', reading('jug 5', '0.999 21C')],
  [
    '2026-08-15 10:00',
    rack('jug 5', 'codlin jar', '2.5 L', { lees: '0.3 L', stage: 'settling' }),
    draw('jug 5', '1.8 L', 'drunk young and cloudy'),
    seed('codlin jar', 'Young Bess', 'young bess', '300 ml'),
    reading('codlin jar', '1.1 % 19C'),
  ],
  ['2026-08-23 10:00', reading('codlin jar', '1.2 % 18C')],
  ['2026-08-30 10:00', reading('codlin jar', '2.0 % 18C')],
  ['2026-09-06 10:30', reading('codlin jar', '2.9 % 18C')],
  ['2026-09-13 10:30', reading('codlin jar', '3.8 % 17C')],
  ['2026-09-20 09:30', reading('codlin jar', '4.6 % 17C')],
  ['2026-09-27 09:30', reading('codlin jar', '5.2 % 16C')],
  ['2026-10-04 10:30', reading('codlin jar', '5.6 % pH 2.9 16C')],
  [
    '2026-10-05 18:00',
    settle('codlin jar', '2.6 L', 'evaporation'),
    goOn('codlin jar', 'maturing'),
    close('codlin jar', 'lid'),
  ],
  ['2026-10-30 18:00', taste('codlin jar', 'Very sharp. Cut it a little before it is bottled.')],
  [
    '2026-11-21 11:00',
    pour('codlin jar', 'water', 'boiled water, cooled', '300 ml'),
    noteBatch('Codlin vinegar', 'Cut. Titrate again before anything is written on a label.'),
  ],
];

/** Sunday's salad: the one vinegar of which all is told that a dressing asks for. */
const forTheSalad: readonly Visit[] = [
  [
    '2026-11-22 12:00',
    reading('bottle d1', '5.9 % 17C', { titrantMl: [19.6, 19.7, 19.6], taste: 'Round, apple and hay.' }),
    know('bottle d1', {
      inspection: {
        ...{ atMs: momentMs('2026-11-22 12:04'), growth: 'none', undecidedSinceMs: null },
        ...{ smell: 'clean', solventSinceMs: null, flies: 'none', cover: 'closed' },
        ...{ eels: 'absent', texture: null },
      },
      ...{ recipient: 'healthyAdult', rawMaterial: 'juice', containsHoney: false, concentrated: false },
      ...{ labelAudience: 'own', labelComplete: true },
    }),
  ],
];

const thisAutumn: readonly Visit[] = [
  [
    '2026-09-06 15:00',
    start('Windfall cider', 'big jug', {
      ...{ as: 'cider', holds: '9.4 L', measured: '1.049 18C pH 3.4' },
      from: [['windfalls, washed and cut', '17 kg']],
    }),
  ],
  ['2026-09-07 18:00', pitchCulture('big jug', 'Perry yeast')],
  ['2026-09-09 08:00', reading('big jug', '1.044 19C')],
  ['2026-09-11 08:00', reading('big jug', '1.033 20C')],
  ['2026-09-13 08:00', reading('big jug', '1.022 20C')],
  ['2026-09-16 08:00', reading('big jug', '1.011 19C')],
  ['2026-09-19 08:00', reading('big jug', '1.004 19C')],
  ['2026-09-22 08:00', reading('big jug', '1.000 18C')],
  ['2026-09-26 08:00', reading('big jug', '0.999 18C')],
  [
    '2026-09-27 14:00',
    reading('big jug', '0.999 18C'),
    rack('big jug', 'jug 2', '4.6 L', { stage: 'settling' }),
    rack('big jug', 'jug 5', '4.2 L', { lees: '0.6 L', stage: 'settling' }),
  ],
  ['2026-11-01 15:00', bottle('jug 5', 5, '750 ml', '150 ml'), draw('jug 5', '300 ml', 'to the pot')],
  [
    '2026-10-16 18:00',
    rack('jug 2', 'jar 2a', '1.4 L', { as: ['Apple vinegar 3', 'fruitVinegar'], stage: 'waiting' }),
    seed('jar 2a', 'Old Bess', 'bess', '300 ml'),
    reading('jar 2a', '1.5 % 20C'),
  ],
  ['2026-10-23 18:00', reading('jar 2a', '1.6 % 20C', { taste: 'Film closed on the sixth day.' })],
  ['2026-10-30 18:20', reading('jar 2a', '2.2 % 21C')],
  [
    '2026-10-28 18:00',
    photo('Apple vinegar 3', DRAWN.filmOnApple, 'The film on the twelfth day, pale and whole.'),
  ],
  ['2026-11-06 18:00', reading('jar 2a', '3.0 % 21C')],
  ['2026-11-12 18:00', reading('jar 2a', '3.7 % 22C')],
  [
    '2026-11-18 18:00',
    reading('jar 2a', '4.3 % 21C', {
      ...{ titrantMl: [14.3, 14.4, 14.3], taste: 'Sharp, clear, a thin new veil.' },
    }),
  ],
  [
    '2026-10-30 19:00',
    rack('jug 2', 'jar 2b', '1.5 L', { as: ['Apple vinegar 4', 'fruitVinegar'], stage: 'waiting' }),
    seed('jar 2b', 'Young Bess', 'young bess', '200 ml'),
    reading('jar 2b', '1.1 % 20C'),
  ],
  ['2026-11-06 18:20', reading('jar 2b', '1.2 % 20C')],
  ['2026-11-13 18:00', reading('jar 2b', '1.7 % 21C')],
  ['2026-11-19 18:00', reading('jar 2b', '2.4 % 21C')],
  ['2026-11-08 19:00', draw('jug 2', '1.3 L', 'drunk with neighbours after the pressing')],

  [
    '2026-11-12 16:00',
    start('Orchard cider', 'jug 1', {
      ...{ as: 'cider', holds: '4.8 L', measured: '1.050 14C pH 3.5, 0.58 % as malic' },
      from: [['sweet and sharp apples, half and half', '9 kg']],
    }),
  ],
  ['2026-11-13 17:00', pitchCulture('jug 1', 'Perry yeast')],
  [
    '2026-11-15 08:00',
    reading('jug 1', '1.047 18C'),
    photo('Orchard cider', DRAWN.foamInTheNeck, 'Foam up to the lock. A litre less next time.'),
  ],
  ['2026-11-17 08:00', reading('jug 1', '1.038 19C')],
  ['2026-11-19 08:00', reading('jug 1', '1.028 19C')],
  ['2026-11-21 08:00', reading('jug 1', '1.019 19C')],
  ['2026-11-23 08:00', reading('jug 1', '1.012 19C')],
  [
    '2026-11-15 15:00',
    start('Crab and cooker cider', 'jug 2', {
      ...{ as: 'cider', holds: '4.7 L', measured: '12.9 Bx', gravityBy: 'refractometer' },
      from: [
        ['crab apples', '2 kg'],
        ['cooking apples', '7 kg'],
      ],
    }),
  ],
  ['2026-11-16 18:00', pitchPacket('jug 2', 'cider yeast, dry', '3 g')],
  ['2026-11-18 08:00', reading('jug 2', '1.049 18C')],
  ['2026-11-20 08:00', reading('jug 2', '1.041 19C')],
  ['2026-11-22 08:00', reading('jug 2', '1.032 19C')],
  ['2026-11-24 08:00', reading('jug 2', '1.023 19C')],
  [
    '2026-11-17 15:00',
    start('Late keepers cider', 'carboy 2', {
      ...{ as: 'cider', holds: '21 L', measured: '1.051 11C pH 3.6' },
      ...{ from: [['keeping apples', '36 kg']], note: 'The slow one, for spring.' },
    }),
  ],
  ['2026-11-18 17:00', pitchCulture('carboy 2', 'Perry yeast')],
  ['2026-11-20 08:30', reading('carboy 2', '1.048 12C')],
  [
    '2026-11-24 16:30',
    start('Last apples', 'bucket 25', {
      ...{ as: 'fruitVinegar', holds: '18 L', measured: '1.049 9C pH 3.3' },
      from: [['what was left on the trees', '31 kg']],
    }),
    add('bucket 25', 'sulfite', 'Campden', '4 tablets'),
  ],
];

const pears: readonly Visit[] = [
  [
    '2026-10-11 15:00',
    start("Poiré d'hiver", 'bucket 25', {
      ...{ as: 'cider', holds: '9.6 L', measured: '1.056 15C pH 3.7' },
      from: [['winter pears, mellowed three weeks', '18 kg']],
    }),
  ],
  ['2026-10-12 18:00', pitchCulture('bucket 25', 'Perry yeast')],
  ['2026-10-14 08:00', reading('bucket 25', '1.053 16C')],
  ['2026-10-17 08:00', reading('bucket 25', '1.042 16C')],
  ['2026-10-20 08:00', reading('bucket 25', '1.031 16C')],
  ['2026-10-24 08:00', reading('bucket 25', '1.019 15C')],
  ['2026-10-28 08:00', reading('bucket 25', '1.011 15C')],
  ['2026-11-01 08:00', reading('bucket 25', '1.008 14C')],
  ['2026-11-04 08:00', reading('bucket 25', '1.007 14C')],
  ['2026-11-07 08:00', reading('bucket 25', '1.007 14C')],
  [
    '2026-11-08 10:00',
    rack('bucket 25', 'jug 6', '4.6 L', { stage: 'settling' }),
    close('wide jar', 'cloth'),
    rack('bucket 25', 'wide jar', '4.2 L', {
      ...{ lees: '0.8 L', as: ['Winter pear vinegar', 'fruitVinegar'], stage: 'waiting' },
    }),
    seed('wide jar', 'Young Bess', 'young bess', '400 ml'),
    noteBatch("Poiré d'hiver", 'Half stays perry, half goes to vinegar. Pears never go quite dry.'),
  ],
  ['2026-11-09 18:00', reading('wide jar', '1.0 % 15C')],
  ['2026-11-16 18:00', reading('wide jar', '1.1 % 15C')],
  ['2026-11-22 18:00', reading('wide jar', '1.6 % 15C')],

  [
    '2026-09-20 17:00',
    start('Pear peel vinegar', 'jar 1', {
      ...{ as: 'fruitVinegar', holds: '800 ml', measured: '1.040 20C' },
      from: [
        ['pear peels and cores', '400 g'],
        ['sugar', '70 g'],
        ['water', '0.7 L'],
      ],
    }),
    goOn('jar 1', 'yeast', 'left to what is on the skins'),
  ],
  ['2026-09-27 17:00', reading('jar 1', '1.036 19C')],
  ['2026-10-04 17:00', reading('jar 1', '1.021 19C')],
  ['2026-10-11 17:40', reading('jar 1', '1.010 19C')],
  [
    '2026-10-14 17:00',
    close('jar 1', 'cloth'),
    seedBought('jar 1', 'raw cider vinegar from the market', '60 ml'),
  ],
  ['2026-10-24 17:00', reading('jar 1', '0.7 % 19C', { acidityBy: 'syringeKit' })],
  [
    '2026-11-07 10:00',
    goOn('jar 1', 'quarantine', 'Blue and green spots on the film, dry and furry.'),
    close('jar 1', 'lid'),
    know('jar 1', {
      inspection: {
        ...{ atMs: momentMs('2026-11-07 10:00'), growth: 'fuzzyOrColoured', undecidedSinceMs: null },
        ...{ smell: 'putrid', solventSinceMs: null, flies: 'none', cover: 'tightCloth' },
        ...{ eels: null, texture: null },
      },
      rawMaterial: 'scrapAndSugarWater',
    }),
    photo('Pear peel vinegar', DRAWN.threadsOnPeel, 'Dry, furry, blue and green: this is no mother.'),
    noteBatch(
      'Pear peel vinegar',
      'Peels had floated up above the liquid. Away from the other jars, cloth boiled.',
    ),
  ],
  ['2026-11-20 18:20', reading('jar 1', 'pH 4', { phBy: 'wideStrip' })],

  [
    '2026-11-22 15:00',
    start('Pear must', 'pear jar', {
      ...{ as: 'cider', holds: '2.6 L', measured: '1.048 6C' },
      ...{ from: [['pears from the wall', '5 kg']], note: 'Kept cold until there is a free jug.' },
    }),
  ],
];

/** Apples and pears: cider and perry, and the vinegars made from them. */
export const applesAndPears: readonly Visit[] = [
  ...lastWinter,
  ...vinegarsOfTheYear,
  ...forTheSalad,
  ...thisAutumn,
  ...pears,
];
