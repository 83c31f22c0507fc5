import {
  add,
  culture,
  describeCulture,
  draw,
  feed,
  noteCulture,
  pour,
  rack,
  reading,
  settle,
} from './doings.ts';
import type { Visit } from './telling.ts';

/** The three mothers, of which one was divided from another, and the other living things that are kept. */
export const cultures: readonly Visit[] = [
  [
    '2025-12-01 13:00',
    culture('Old Bess', {
      ...{ sort: 'mother', source: 'Grew on farm cider in 2021.', standing: ['bess', '1.5 L'] },
      note: 'Thick and slow to start, never fails.',
    }),
    reading('bess', '6.3 % pH 2.9 19C'),
    culture('Red Martha', {
      ...{ sort: 'mother', source: 'Came by itself on a forgotten bottle of red wine, 2023.' },
      ...{ standing: ['martha', '1.1 L'], note: 'Keeps the oak going.' },
    }),
    reading('martha', '6.2 % 14C'),
    culture('紅茶菌', {
      ...{ sort: 'tea', source: 'A present from a colleague.', standing: ['tea keeper', '1.3 L'] },
      note: 'Black or green tea, never scented.',
    }),
    culture('Rye starter', {
      ...{ sort: 'starter', source: 'Whole rye and water, begun at home in 2019.' },
      standing: ['rye jar', '250 ml'],
    }),
    culture('Kefir grains', {
      ...{ sort: 'grains', source: 'Swapped for a jar of plum jam.', standing: ['kefir jar', '700 ml'] },
    }),
  ],
  [
    '2025-12-20 15:30',
    culture('Perry yeast', {
      ...{ sort: 'yeast', source: 'Lees of Perry 2025, third generation.', standing: ['flask', '400 ml'] },
      note: 'Works at 10 °C and leaves a clear wine.',
    }),
  ],

  ['2025-12-14 10:00', rack('jug 3', 'bess', '200 ml'), feed('Old Bess', '200 ml dry cider')],
  ['2025-12-14 10:15', feed('Red Martha', '100 ml red wine')],
  ['2026-01-18 10:00', rack('jug 3', 'bess', '300 ml'), feed('Old Bess', '300 ml dry cider')],
  ['2026-01-18 10:12', feed('Red Martha', '50 ml red wine'), feed('Perry yeast', '50 ml apple juice')],
  ['2026-02-15 10:00', feed('Old Bess', 'a splash of cider'), feed('Red Martha', 'a splash of wine')],
  ['2026-02-21 11:30', rack('oak', 'martha', '400 ml')],
  [
    '2026-03-08 11:00',
    draw('bess', '500 ml', 'half the mother with its liquid, to begin Young Bess'),
    culture('Young Bess', {
      ...{ sort: 'mother', source: 'The upper half of Old Bess.', dividedFrom: 'Old Bess' },
      ...{ standing: ['young bess', '500 ml'], note: 'Kept in the cellar in case the pantry ever fails.' },
    }),
    pour('young bess', 'other', 'dry cider', '400 ml'),
  ],
  ['2026-03-22 12:00', feed('Red Martha', '100 ml red wine'), feed('Perry yeast', '50 ml apple juice')],
  ['2026-04-04 10:00', rack('jug 3', 'bess', '300 ml'), feed('Old Bess', '300 ml dry cider')],
  ['2026-04-12 10:00', feed('Young Bess', 'a splash of cider'), reading('young bess', '3.9 %')],
  ['2026-04-26 10:00', feed('Red Martha', '100 ml red wine'), feed('Perry yeast', '50 ml apple juice')],
  ['2026-05-10 10:00', feed('Old Bess', '100 ml dry cider'), feed('Young Bess', '50 ml dry cider')],
  [
    '2026-05-31 10:00',
    feed('Red Martha', '100 ml red wine'),
    feed('Perry yeast', '60 ml pear juice'),
    describeCulture(
      'Perry yeast',
      'yeast',
      'Lees of Perry 2025, third generation.',
      'Works at 10 °C and leaves a clear wine. Smells of banana when it is hungry.',
    ),
  ],
  ['2026-06-14 10:00', pour('bess', 'other', 'dry cider', '100 ml'), feed('Old Bess', '100 ml dry cider')],
  ['2026-06-14 10:12', feed('Young Bess', '50 ml dry cider'), reading('young bess', '5.4 % 14C')],
  ['2026-07-12 10:00', settle('bess', '1.7 L', 'evaporation'), feed('Old Bess', 'a splash of cider')],
  ['2026-07-12 10:12', feed('Young Bess', '50 ml dry cider'), feed('Red Martha', '100 ml red wine')],
  ['2026-07-19 10:00', feed('Perry yeast', '50 ml apple juice')],
  ['2026-08-09 10:00', feed('Old Bess', '100 ml dry cider'), feed('Young Bess', '50 ml dry cider')],
  ['2026-08-16 10:00', feed('Red Martha', '100 ml red wine'), feed('Perry yeast', '50 ml apple juice')],
  [
    '2026-09-06 10:00',
    pour('young bess', 'other', 'dry cider', '400 ml'),
    feed('Young Bess', '400 ml dry cider'),
  ],
  ['2026-09-13 10:00', feed('Old Bess', '100 ml dry cider'), reading('bess', '6.3 % pH 2.9')],
  ['2026-09-20 10:40', feed('Perry yeast', '80 ml windfall juice'), feed('Red Martha', '100 ml red wine')],
  ['2026-10-10 10:00', feed('Red Martha', '80 ml elderberry wine'), reading('martha', '6.4 % 13C')],
  [
    '2026-10-17 10:00',
    rack('jug 2', 'bess', '200 ml'),
    noteCulture('Old Bess', 'The film is as thick as a thumb. Divide it in spring.'),
  ],
  ['2026-10-25 10:00', feed('Old Bess', '200 ml windfall cider')],
  ['2026-10-26 09:00', feed('Young Bess', '50 ml windfall cider')],
  ['2026-11-01 10:00', rack('jug 2', 'young bess', '200 ml'), feed('Red Martha', '100 ml red wine')],
  ['2026-11-13 18:00', feed('Perry yeast', '80 ml orchard juice')],
  ['2026-11-20 18:00', feed('Old Bess', '100 ml dry cider')],

  [
    '2025-12-28 09:00',
    feed('Rye starter', '50 g rye, 50 g water'),
    feed('Kefir grains', '40 g sugar, 2 figs'),
  ],
  ['2026-01-25 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  ['2026-02-22 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  [
    '2026-03-22 09:00',
    feed('Rye starter', '60 g rye, 60 g water'),
    feed('Kefir grains', '40 g sugar, 1 date'),
  ],
  ['2026-04-19 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  ['2026-05-17 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  ['2026-06-14 09:00', feed('Rye starter', '50 g rye, 50 g water'), reading('rye jar', 'pH 3.8')],
  ['2026-07-12 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  ['2026-08-09 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  [
    '2026-09-06 09:00',
    feed('Rye starter', '50 g rye, 50 g water'),
    feed('Kefir grains', '40 g sugar, 2 figs'),
  ],
  ['2026-10-04 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  ['2026-11-01 09:00', feed('Rye starter', '50 g rye, 50 g water'), feed('Kefir grains', '40 g sugar')],
  ['2026-11-15 09:00', feed('Kefir grains', '40 g sugar'), add('kefir jar', 'fruit', 'dried figs', '2')],
  [
    '2026-11-22 09:00',
    feed('Rye starter', '60 g rye, 60 g water'),
    reading('rye jar', 'pH 3.9', { phBy: 'narrowStrip' }),
  ],
];
