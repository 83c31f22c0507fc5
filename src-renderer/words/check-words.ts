import type { CheckReport, Progress } from '#core/contract/cellar.ts';

const COUNT = new Intl.NumberFormat('en');

const WORK_WORDS: Readonly<Record<string, string>> = {
  file: 'Reading the file',
  book: 'Adding up the lines of the book',
  shelf: 'Building the shelf again from the book',
  copy: 'Writing the copy',
  out: 'Taking it out',
  read: 'Reading the rows',
  write: 'Writing them into the book',
  pictures: 'Looking at each picture',
  labels: 'Drawing the labels',
  seal: 'Sealing it',
  prove: 'Reading it again, byte by byte',
  carry: 'Carrying it to the next folder',
  encrypt: 'Encrypting it',
  decrypt: 'Decrypting it',
  extract: 'Taking the cellar out of it',
  swap: 'Putting it in place',
  pages: 'Reading the damaged pages',
  lines: 'Putting the lines in order',
};

const FAULT_WORDS: Readonly<Record<string, string>> = {
  FileDamaged: 'The file itself is damaged',
  Orphan: 'A line points to something that is not there',
  CannotReplay: 'A line of the book cannot be read back',
  NotInTheBook: 'On the shelf, but not in the book',
  MissingFromTheShelf: 'In the book, but not on the shelf',
  DiffersFromTheBook: 'The shelf says something else than the book',
  PictureMissing: 'A photo is in the book, but its picture is not in the file',
  PictureDamaged: 'A picture is not what it was when it was kept',
  TicketDiffers: 'A ticket says something else than the book',
};

/** One step of long work: `Adding up the lines of the book: 3,420 of 10,000.` */
export function sayProgress(progress: Progress): string {
  const what = WORK_WORDS[progress.what] ?? capital(progress.what);
  return progress.total > 0
    ? `${what}: ${COUNT.format(progress.done)} of ${COUNT.format(progress.total)}.`
    : `${what}…`;
}

/** What a check came to, in one sentence. */
export function sayCheck(report: CheckReport): string {
  const lines = report.entries === 1 ? '1 line' : `${COUNT.format(report.entries)} lines`;
  if (report.sound)
    return `The file is whole, the ${lines} of the book add up, and the shelf is what the book says.`;
  const faults = report.faults.length === 1 ? 'One fault was' : `${report.faults.length} faults were`;
  return `${faults} found in this cellar. Nothing was changed. Save a copy before you write anything more.`;
}

/** One fault of a check, with the detail a person can quote. */
export function sayCheckFault(fault: CheckReport['faults'][number]): string {
  const words = FAULT_WORDS[fault.type] ?? fault.type;
  return fault.detail === '' ? `${words}.` : `${words}: ${fault.detail}`;
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
