/** What a person may say after `--` when starting the program. */
export interface HostOptions {
  /** The cellar file to open; the platform's own place when absent. */
  readonly cellar?: string;
  /** Open a copy of the sample cellar. */
  readonly demo: boolean;
  /** The loopback port; one the system picks when absent. */
  readonly port?: number;
  /** Serve the page without opening a window. */
  readonly noWindow: boolean;
  /** Print one line `READY <url>` for a program that started this one. */
  readonly readyLine: boolean;
  readonly help: boolean;
}

export type OptionsReading =
  { readonly ok: true; readonly options: HostOptions } | { readonly ok: false; readonly sentence: string };

export const helpText = `Undercroft keeps the book and the shelf of a home fermentation cellar.

  npm start                         open the cellar
  npm start -- --cellar FILE        open this cellar file; it is made if it does not exist
  npm start -- --demo               look around a copy of a sample cellar
  npm start -- --no-window          print an address instead of opening a window
  npm start -- --port N             use this port (1024 to 65535) where the window is a browser's
  npm start -- --help               this text
`;

const smallestPort = 1024;
const largestPort = 65535;
const seeHelp = '"npm start -- --help" lists what may be said.';

/**
 * Reads the words after `--`.
 *
 * @param words as typed, without the program's own name
 * @returns the options, or one sentence for the person naming the word that was not understood
 */
export function readOptions(words: readonly string[]): OptionsReading {
  let cellar: string | undefined;
  let port: number | undefined;
  let demo = false;
  let noWindow = false;
  let readyLine = false;
  let help = false;

  const rest = words.flatMap(splitAtEquals);
  while (rest.length > 0) {
    const word = rest.shift();
    switch (word) {
      case '--cellar': {
        const file = rest.shift();
        if (file === undefined || file === '' || file.startsWith('--')) {
          return refuse('--cellar needs the name of a file, for instance --cellar pantry.undercroft.');
        }
        if (cellar !== undefined) return refuse('--cellar was given twice; one cellar is opened at a time.');
        cellar = file;
        break;
      }
      case '--port': {
        const typed = rest.shift();
        const number = typed === undefined || !/^\d{1,5}$/.test(typed) ? undefined : Number(typed);
        if (number === undefined || number < smallestPort || number > largestPort) {
          const said = typed === undefined ? 'nothing followed' : `"${typed}" followed`;
          return refuse(`--port needs a whole number from ${smallestPort} to ${largestPort}; ${said}.`);
        }
        port = number;
        break;
      }
      case '--demo':
        demo = true;
        break;
      case '--no-window':
        noWindow = true;
        break;
      case '--ready-line':
        readyLine = true;
        break;
      case '--help':
      case '-h':
        help = true;
        break;
      default:
        return refuse(`"${word ?? ''}" is not an option of Undercroft. ${seeHelp}`);
    }
  }

  if (demo && cellar !== undefined) {
    return refuse('--demo opens a sample cellar and --cellar opens yours; choose one of the two.');
  }
  return {
    ok: true,
    options: {
      demo,
      noWindow,
      readyLine,
      help,
      ...(cellar === undefined ? {} : { cellar }),
      ...(port === undefined ? {} : { port }),
    },
  };
}

function splitAtEquals(word: string): string[] {
  const at = word.indexOf('=');
  return word.startsWith('--') && at > 0 ? [word.slice(0, at), word.slice(at + 1)] : [word];
}

function refuse(sentence: string): OptionsReading {
  return { ok: false, sentence };
}
