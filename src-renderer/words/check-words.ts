import type { CheckReport, Progress } from '#core/contract/cellar.ts';

const COUNT = new Intl.NumberFormat('en');

const WORK_WORDS: Readonly<Record<string, string>> = {
  file: 'Reading the file',
  copy: 'Writing the copy',
  pages: 'Writing the copy',
  verify: 'Reading the copy back',
  entries: 'Adding up the lines of the book',
  balance: 'Adding up the lines of the book',
  rebuild: 'Building the shelf again from the book',
  compare: 'Comparing the shelf with the book',
};

const FAULT_WORDS: Readonly<Record<string, string>> = {
  integrity: 'The file itself is damaged',
  foreignKeys: 'A line points to something that is not there',
  balance: 'A line of the book does not add up',
  projection: 'The shelf differs from what the book says',
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
