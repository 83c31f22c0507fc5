/** Line icons on a grid of 20 by 20, drawn with a stroke of 1.7. */
export const ICONS = {
  shelves: 'M3 5h14M3 16h14M5 5v-3M5.5 16v-7h4v7M12 16v-5a2 2 0 0 1 3.5 0v5',
  book: 'M4 3h10a2 2 0 0 1 2 2v12H6a2 2 0 0 1-2-2zM7.5 7h5M7.5 10.5h5',
  cultures: 'M10 17v-5M10 12l-5-4M10 12l5-4M5 8V4M15 8V4',
  rules: 'M3 6h5M12 6h5M8 4h4v4H8zM3 14h8M15 14h2M11 12h4v4h-4z',
  cross: 'M5 5l10 10M15 5L5 15',
  plus: 'M10 4v12M4 10h12',
  minus: 'M4 10h12',
  find: 'M9 3.5a5.5 5.5 0 1 0 .01 0M13 13l4 4',
  back: 'M12 4l-6 6 6 6',
  next: 'M8 4l6 6-6 6',
  down: 'M4 7l6 6 6-6',
  undo: 'M7 4L3 8l4 4M3 8h8a5 5 0 0 1 0 9H7',
  redo: 'M13 4l4 4-4 4M17 8H9a5 5 0 0 0 0 9h4',
  warning: 'M10 3l8 14H2zM10 8v4M10 14.4v.2',
  chalk: 'M4 16l2-5 7-7 3 3-7 7zM11.5 5.5l3 3',
  note: 'M4 3h12v10l-4 4H4zM12 17v-4h4M7 7h6M7 10h4',
  table: 'M3 4h14v12H3zM3 8h14M3 12h14M9 8v8',
  jar: 'M6 3h8M7 3v2l-1.5 2v9a1.5 1.5 0 0 0 1.5 1.5h6a1.5 1.5 0 0 0 1.5-1.5V7L13 5V3M5.5 11h9',
  keys: 'M2.5 5h15v10h-15zM5.5 8.2h.1M8.5 8.2h.1M11.5 8.2h.1M14.5 8.2h.1M6.5 12h7',
  file: 'M5 2.5h7l3 3v12H5zM12 2.5v3h3',
  tick: 'M4 10.5l4 4 8-9',
  sun: 'M10 6.5a3.5 3.5 0 1 0 .01 0M10 2v1.5M10 16.5V18M2 10h1.5M16.5 10H18M4.3 4.3l1 1M14.7 14.7l1 1M4.3 15.7l1-1M14.7 5.3l1-1',
} as const;

export type IconName = keyof typeof ICONS;
