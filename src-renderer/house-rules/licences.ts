export interface Licence {
  readonly name: string;
  readonly licence: string;
  readonly use: string;
}

/** What the program is made with, in the order of the alphabet, with what each part does in it. */
export const LICENCES: readonly Licence[] = [
  { name: 'age-encryption', licence: 'BSD-3-Clause', use: 'backups under a passphrase' },
  { name: 'Archivo and Archivo Narrow', licence: 'OFL-1.1', use: 'labels' },
  { name: 'Atkinson Hyperlegible Mono', licence: 'OFL-1.1', use: 'codes and paths' },
  { name: 'Atkinson Hyperlegible Next', licence: 'OFL-1.1', use: 'words and numbers on the screen' },
  { name: 'better-sqlite3', licence: 'MIT', use: 'the cellar file' },
  { name: 'bidi-js', licence: 'MIT', use: 'lines that run both ways' },
  { name: 'Chart.js', licence: 'MIT', use: 'charts' },
  { name: 'Drizzle ORM', licence: 'Apache-2.0', use: 'the tables of the file' },
  { name: 'Electron', licence: 'MIT', use: 'the desktop window' },
  { name: 'fontkit', licence: 'MIT', use: 'the letters of a label' },
  { name: 'Hono and its Node server', licence: 'MIT', use: 'the browser window' },
  { name: 'Literata', licence: 'OFL-1.1', use: 'headings' },
  { name: 'Noto Emoji', licence: 'OFL-1.1', use: 'labels' },
  { name: 'Noto Sans Arabic and Noto Sans Hebrew', licence: 'OFL-1.1', use: 'labels' },
  { name: 'oRPC', licence: 'MIT', use: 'calls between window and cellar' },
  { name: 'Papa Parse', licence: 'MIT', use: 'tables that are brought in' },
  { name: 'PDFKit', licence: 'MIT', use: 'labels as a file' },
  { name: 'qrcode', licence: 'MIT', use: 'the square code on a label' },
  { name: 'SQLite', licence: 'public domain', use: 'inside better-sqlite3' },
  { name: 'Svelte', licence: 'MIT', use: 'the screens' },
  { name: 'Virtua', licence: 'MIT', use: 'long lists' },
  { name: 'Zod', licence: 'MIT', use: 'checking what comes in' },
];
