import BetterSqlite from 'better-sqlite3';
import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SalvageReport } from '#core/contract/salvage.ts';
import { FileRefused } from '#main/cellar/file-refused.ts';
import { newIdMaker } from '#main/platform/new-id.ts';
import { salvage } from '#main/strongbox/salvage.ts';
import { chanceFrom } from '../../../demo/load-story.ts';
import { contentDigest } from '../../../demo/soak/whole-cellar.ts';
import { begun, jar, LITRE, must, NOW, openDeskOn, scratchFolder } from '../desk-for-tests.ts';
import { ended } from './backups-for-tests.ts';

const PAGE = 4096;
const scratch = scratchFolder();
/** A cellar of some hundred lines, closed; and one as it lies on the disk while it is open, its newest lines in the log. */
const whole = join(scratch.folder, 'whole.undercroft');
const open = join(scratch.folder, 'open.undercroft');
let lines: number;
let openLines: number;

beforeAll(async () => {
  const desk = openDeskOn(whole);
  await begun(desk);
  await fillCellar(desk, 12);
  desk.app.desk.services.session.cellar.sqlite.pragma('wal_checkpoint(TRUNCATE)');
  await fillCellar(desk, 6);
  const { file, sqlite } = desk.app.desk.services.session.cellar;
  // The exclusive lock is this process's own, and these copies are made by another.
  for (const end of ['', '-wal']) copyByAnother(`${file}${end}`, `${open}${end}`);
  openLines = sqlite.prepare('SELECT COUNT(*) FROM entry').pluck().get() as number;
  desk.close();
  lines = openLines;
}, 60_000);
afterAll(() => {
  scratch.remove();
});

async function fillCellar(desk: ReturnType<typeof openDeskOn>, vessels: number): Promise<void> {
  for (let number = 0; number < vessels; number += 1) {
    const { vesselId } = await desk.write(
      'addVessel',
      jar({ name: `Jar ${drawn}`, note: 'x'.repeat(number * 300) }),
    );
    await desk.write('startBatch', must(vesselId, 4, `Must of row ${number}`), NOW);
    await desk.post({ kind: 'drawOff', vesselId, volumeUl: LITRE / 2 + (drawn += 1), purpose: 'tasting' });
    await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: `smells of pears ${drawn}` });
  }
}

function copyByAnother(from: string, to: string): void {
  // Reading a held file through a descriptor of this process would give up its lock when it is closed.
  execFileSync('cp', [from, to]);
}

/** Each draws another amount, so that its line can be told from all others in the bytes. */
let drawn = 0;
let runs = 0;
async function salvaged(file: string): Promise<{ readonly report: SalvageReport; readonly target: string }> {
  const target = join(scratch.folder, `salvaged-${(runs += 1)}.undercroft`);
  const clock = () => NOW;
  const report = await ended(salvage({ file, target }, { clock, newId: newIdMaker(clock) }, undefined));
  return { report, target };
}

/** A damaged copy, alone in a folder of its own. */
function damaged(from: string, spoil: (bytes: Buffer) => Buffer | undefined, ends = ['', '-wal']): string {
  const folder = join(scratch.folder, `damaged-${(runs += 1)}`);
  mkdirSync(folder);
  const file = join(folder, 'cellar.undercroft');
  for (const end of ends) if (existsSync(`${from}${end}`)) copyFileSync(`${from}${end}`, `${file}${end}`);
  const bytes = readFileSync(file);
  writeFileSync(file, spoil(bytes) ?? bytes);
  return file;
}

interface Kept {
  readonly entry_id: string;
  readonly act: string;
  readonly postings: string;
}
function linesOf(file: string): Kept[] {
  const sqlite = new BetterSqlite(file, { readonly: true });
  try {
    return sqlite.prepare('SELECT entry_id, act, postings FROM entry ORDER BY sequence').all() as Kept[];
  } finally {
    sqlite.close();
  }
}
/** Lines that were never written: stand-ins. One that was written must say what it said. */
function strangers(file: string, all: ReadonlyMap<string, string>): number {
  const kept = linesOf(file);
  for (const { entry_id, act } of kept) expect(all.get(entry_id) ?? act).toBe(act);
  return kept.filter(({ entry_id }) => !all.has(entry_id)).length;
}
const volumes = (postings: string): string =>
  (JSON.parse(postings) as { deltaUl: number }[]).map(({ deltaUl }) => deltaUl).join();
function digestOf(file: string): string {
  const sqlite = new BetterSqlite(file, { readonly: true });
  try {
    return contentDigest(sqlite);
  } finally {
    sqlite.close();
  }
}
/** Where these bytes stand in the file. */
function placeOf(bytes: Buffer, text: string): number {
  const at = bytes.indexOf(text);
  if (at === -1) throw new Error(`"${text}" is not in the file`);
  return at;
}

describe('a cellar that SQLite would refuse or misread', { timeout: 60_000 }, () => {
  it('gives back a whole file to the last row, with nothing to report', async () => {
    const { report, target } = await salvaged(whole);
    expect(report).toMatchObject({
      lines: { saved: lines, aside: 0, lost: 0, highestSeen: lines, gaps: [], reckonedAnew: [] },
      ...{ aside: [], doubtful: [], nameRead: true, houseRulesRead: true },
      pages: { headerReadable: true, brokenRows: 0, logLeft: 0 },
    });
    expect(digestOf(target)).toBe(digestOf(whole));
  });

  it.each<[string, (bytes: Buffer) => void]>([
    ['a header of zeros', (bytes) => bytes.fill(0, 0, 100)],
    ['a first page of garbage', (bytes) => bytes.fill(0xa5, 0, PAGE)],
    ['a page size that is none', (bytes) => bytes.writeUInt16BE(777, 16)],
  ])('with %s gives back all its lines', async (_what, spoil) => {
    const file = damaged(whole, (bytes) => {
      spoil(bytes);
      return undefined;
    });
    const { report, target } = await salvaged(file);
    expect(report.lines).toMatchObject({ saved: lines, lost: 0, aside: 0 });
    expect(linesOf(target)).toEqual(linesOf(whole));
  });

  it('cut off anywhere gives back what is before the cut, and counts what it saw is missing', async () => {
    const all = new Map(linesOf(whole).map((line) => [line.entry_id, line.act]));
    for (const share of [0.9, 0.6]) {
      const file = damaged(whole, (bytes) => bytes.subarray(0, Math.floor(bytes.length * share) + 123));
      const { report, target } = await salvaged(file);
      const { saved, aside, lost, highestSeen } = report.lines;
      if (share === 0.9) expect(saved).toBeGreaterThan(lines / 2);
      expect(saved + aside + lost).toBe(highestSeen);
      expect(strangers(target, all)).toBe(report.standIns.length);
    }
  });

  it('with any one page lost gives back the others, in order, and never a line that was not written', async () => {
    const all = new Map(linesOf(whole).map((line) => [line.entry_id, line.act]));
    const bytes = readFileSync(whole);
    const pages = Array.from({ length: bytes.length / PAGE }, (_, page) => page);
    const ofLines = pages.filter((page) =>
      bytes.subarray(page * PAGE, (page + 1) * PAGE).includes('"purpose":"tasting"'),
    );
    let lost = 0;
    for (const page of [...ofLines, ...pages.filter((one) => one % 9 === 1)]) {
      const file = damaged(whole, (bytes) => bytes.fill(0x5a, page * PAGE, (page + 1) * PAGE));
      const { report, target } = await salvaged(file);
      expect(report.lines.saved + report.standIns.length).toBe(linesOf(target).length);
      expect(report.lines.saved + report.lines.aside + report.lines.lost).toBe(report.lines.highestSeen);
      expect(strangers(target, all)).toBe(report.standIns.length);
      lost += report.lines.lost;
    }
    expect(lost).toBeGreaterThan(0);
  });
});

describe('a log beside the file', { timeout: 60_000 }, () => {
  const log = (file: string, spoil: (bytes: Buffer) => Buffer): string => {
    writeFileSync(`${file}-wal`, spoil(readFileSync(`${file}-wal`)));
    return file;
  };
  const untouched = (): string => damaged(open, () => undefined);

  it('is read with the file', async () => {
    const { report, target } = await salvaged(untouched());
    expect(report.lines).toMatchObject({ saved: openLines, lost: 0 });
    expect(report.pages.logTaken).toBeGreaterThan(10);
    expect(digestOf(target)).toBe(digestOf(whole));
  });

  it('that is missing costs the lines in it, and no others', async () => {
    const { report } = await salvaged(damaged(open, () => undefined, ['']));
    expect(report.lines.saved).toBe(linesOf(whole).length - 6 * 4);
    expect(report.lines).toMatchObject({ lost: 0, aside: 0 });
  });

  it('that is cut off gives its ended transactions', async () => {
    const file = log(untouched(), (bytes) => bytes.subarray(0, Math.floor(bytes.length * 0.6)));
    const { report, target } = await salvaged(file);
    const sqlite = new BetterSqlite(file);
    const bySqlite = sqlite.prepare('SELECT COUNT(*) FROM entry').pluck().get();
    sqlite.close();
    expect(report.lines.saved).toBe(bySqlite);
    expect(linesOf(target)).toEqual(linesOf(whole).slice(0, report.lines.saved));
  });

  it('with a head of zeros, or one frame hit, gives what stands after it too', async () => {
    const headless = await salvaged(log(untouched(), (bytes) => bytes.fill(0, 0, 32)));
    expect(headless.report.lines.saved).toBe(openLines);
    const hit = await salvaged(log(untouched(), (bytes) => bytes.fill(7, 32 + 24 + 100, 32 + 24 + 300)));
    expect(hit.report.pages.logLeft).toBeGreaterThan(0);
    expect(hit.report.lines.saved + hit.report.lines.lost + hit.report.lines.aside).toBe(openLines);
    expect(hit.report.lines.saved).toBeGreaterThan(openLines - 8);
  });
});

describe('a line that was hit', { timeout: 60_000 }, () => {
  const hit = (text: string, by: string): string =>
    damaged(whole, (bytes) => {
      expect(by).toHaveLength(text.length);
      // The same bytes may stand in room that is free again.
      for (let at = placeOf(bytes, text); at !== -1; at = bytes.indexOf(text, at + 1)) bytes.write(by, at);
      return undefined;
    });

  it('in an amount of its postings does not balance, and is kept as text alone', async () => {
    const { report } = await salvaged(hit('"deltaUl":-500004', '"deltaUl":-500074'));
    expect(report.aside).toMatchObject([
      { why: 'Unbalanced', text: expect.stringContaining('drawOff') as string },
    ]);
    expect(report.lines).toMatchObject({ saved: lines - 1, aside: 1, lost: 0 });
  });

  it('in an amount of its act moves other volumes than it says, and is kept as text alone', async () => {
    const { report } = await salvaged(hit('"volumeUl":500004,"purpose"', '"volumeUl":700004,"purpose"'));
    expect(report.aside).toMatchObject([{ why: 'OtherAmounts' }]);
  });

  it('in a letter is kept, and named as doubtful since the words beside it say otherwise', async () => {
    const { report } = await salvaged(hit('"text":"smells of pears 3"', '"text":"smells of peers 3"'));
    expect(report.lines).toMatchObject({ saved: lines, aside: 0 });
    expect(report.doubtful).toMatchObject([{ text: expect.stringContaining('pears 3') as string }]);
  });

  it('so that it is no act any more is kept as text alone; the old shelf stands in for it', async () => {
    const { report } = await salvaged(hit('"name":"Jar 3","sil', '"nome":"Jar 3","sil'));
    expect(report.aside).toMatchObject([{ why: 'Unreadable' }]);
    expect(report.standIns).toEqual([{ what: 'vessel', name: 'Jar 3' }]);
    expect(report.lines).toMatchObject({ saved: lines - 1, aside: 1 });
  });
});

describe('what cannot be salvaged', () => {
  const refusal = async (file: string, target = join(scratch.folder, 'never.undercroft')) => {
    const clock = () => NOW;
    try {
      await ended(salvage({ file, target }, { clock, newId: newIdMaker(clock) }, undefined));
    } catch (error) {
      if (error instanceof FileRefused) return error.refusal;
      throw error;
    }
    throw new Error('it was not refused');
  };

  it('is refused with why, and leaves nothing behind', async () => {
    const folder = join(scratch.folder, 'refused');
    mkdirSync(folder);
    const other = join(folder, 'letter.txt');
    writeFileSync(other, 'Dear cellar, '.repeat(2000));
    const target = join(folder, 'new.undercroft');
    expect(await refusal(other, target)).toMatchObject({ type: 'NotACellar', file: other });
    writeFileSync(other, '');
    expect(await refusal(other, target)).toMatchObject({ type: 'NotACellar' });
    expect(await refusal(join(folder, 'gone'), target)).toMatchObject({ type: 'NoSuchFile' });
    expect(await refusal(folder, target)).toMatchObject({ type: 'BadPath' });
    expect(await refusal(whole, other)).toMatchObject({ type: 'AlreadyThere', file: other });
    expect(await refusal(whole, join(folder, 'no', 'folder'))).toMatchObject({ type: 'FolderMissing' });
    expect(readdirSync(folder)).toEqual(['letter.txt']);
  });

  it('is the cellar that lies open', async () => {
    const file = join(scratch.folder, 'held.undercroft');
    const desk = openDeskOn(file);
    await begun(desk);
    expect(await refusal(file)).toMatchObject({ type: 'InUse', file });
    await desk.post(jar({}));
    desk.close();
  });
});

describe('any damage at all', { timeout: 120_000 }, () => {
  it('gives a sound cellar of lines that were written, or a refusal', async () => {
    const chance = chanceFrom(20_261_128);
    const all = new Map(linesOf(whole).map((line) => [line.entry_id, line]));
    for (let round = 0; round < 20; round += 1) {
      const file = damaged(chance() < 0.5 ? whole : open, (bytes) => {
        for (let times = 1 + Math.floor(chance() * 12); times > 0; times -= 1) {
          const at = Math.floor(chance() * bytes.length);
          const length = Math.floor(chance() ** 3 * 9000);
          const turn = Math.floor(chance() * 3);
          if (turn === 0) bytes[at] = (bytes[at] ?? 0) ^ (1 << Math.floor(chance() * 8));
          else if (turn === 1)
            bytes.fill(Math.floor(chance() * 256), at, Math.min(bytes.length, at + length));
          else bytes.copy(bytes, at, Math.floor(chance() * bytes.length), at + length);
        }
        return chance() < 0.2 ? bytes.subarray(0, Math.floor(chance() * bytes.length)) : undefined;
      });
      try {
        const { report, target } = await salvaged(file);
        for (const { entry_id, act, postings } of linesOf(target)) {
          const was = all.get(entry_id);
          if (was === undefined || was.act === act) continue;
          // A letter or a date may be hit with nothing left that says otherwise; what moved in volume may not.
          expect(volumes(postings), act).toBe(volumes(was.postings));
          if (report.lines.lost === 0) expect(report.doubtful).not.toEqual([]);
        }
        rmSync(target);
      } catch (error) {
        if (!(error instanceof FileRefused) || error.refusal.type !== 'NotACellar') throw error;
      }
    }
  });
});
