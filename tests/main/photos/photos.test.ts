import { ORPCError } from '@orpc/client';
import { createHash, randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import BetterSqlite from 'better-sqlite3';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { KEPT_BYTES_MAX } from '#core/pictures/limits.ts';
import { rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import { bytesOf, exif, jpeg, png } from '../../core/pictures/pictures-for-tests.ts';
import { begun, jar, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let file = '';
let vesselId: VesselId;
let batchId: BatchId;
let count = 0;
beforeEach(async () => {
  file = join(scratch.folder, `photos-${(count += 1)}.undercroft`);
  desk = openDeskOn(file);
  ({ vesselId, batchId } = await begun(desk));
});
afterEach(() => {
  desk.close();
});
afterAll(() => {
  scratch.remove();
});

const sum = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const asFile = (bytes: Uint8Array<ArrayBuffer>, name = 'p.jpg', type = 'image/jpeg'): File =>
  new File([bytes], name, { type });
const small = jpeg({ widthPx: 32, heightPx: 24 });

interface Given {
  readonly bytes?: Uint8Array<ArrayBuffer>;
  readonly thumbnail?: Uint8Array<ArrayBuffer>;
  readonly checksum?: string;
  readonly widthPx?: number;
  readonly caption?: string;
  readonly requestId?: string;
  readonly about?: { kind: 'vessel'; vesselId: VesselId } | { kind: 'batch'; batchId: BatchId };
  readonly picture?: File;
}

function add(given: Given = {}) {
  const bytes = given.bytes ?? jpeg({ widthPx: 640, heightPx: 480 });
  return desk.client.photos.add({
    requestId: given.requestId ?? randomUUID(),
    act: {
      ...{ kind: 'addPhoto', about: given.about ?? { kind: 'vessel', vesselId } },
      ...{ checksum: given.checksum ?? sum(bytes), widthPx: given.widthPx ?? 640, heightPx: 480 },
      caption: given.caption ?? '',
    },
    ...{ happenedAtMs: NOW, typed: {} },
    picture: given.picture ?? asFile(bytes),
    thumbnail: asFile(given.thumbnail ?? small),
  });
}

async function refusal(call: Promise<unknown>): Promise<unknown> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ORPCError) return { code: error.code as string, data: error.data as unknown };
    throw error;
  }
  return null;
}
const sqlite = () => desk.app.desk.services.session.cellar.sqlite;
const kept = (): number => sqlite().prepare('SELECT COUNT(*) FROM picture').pluck().get() as number;
const lines = (): number => desk.app.desk.services.session.book.count();

async function check() {
  const steps = await desk.client.cellar.check();
  const seen: string[] = [];
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return { report: step.value, seen };
    seen.push(step.value.what);
  }
}

describe('a photo that is added', () => {
  it('lies in the file by its checksum, stands on leaf and vessel, and comes back byte for byte', async () => {
    const bytes = jpeg({ widthPx: 640, heightPx: 480, scan: [7, 7, 7] });
    const posted = await add({ bytes, caption: 'The disc on day nine' });
    const photoId = posted.entry.entryId;
    const [row] = await desk.client.photos.of({ about: { kind: 'batch', batchId } });
    expect(row).toEqual({
      ...{ photoId, checksum: sum(bytes), caption: 'The disc on day nine', atMs: NOW },
      ...{ widthPx: 640, heightPx: 480, batchId, vesselId },
    });
    expect(await desk.client.photos.of({ about: { kind: 'vessel', vesselId } })).toEqual([row]);
    const { picture } = await desk.client.photos.picture({ checksum: sum(bytes) });
    expect(new Uint8Array(await picture.arrayBuffer())).toEqual(bytes);
    expect(picture.type).toBe('image/jpeg');
    const [thumb] = await desk.client.photos.thumbnails({ checksums: [sum(bytes), 'ab'.repeat(32)] });
    expect(thumb?.checksum).toBe(sum(bytes));
    expect(new Uint8Array((await thumb?.thumbnail.arrayBuffer()) ?? new ArrayBuffer())).toEqual(small);
    const found = await desk.client.find.everywhere({ text: 'day nine', limit: 5 });
    expect(found.days.map(({ text }) => text)).toEqual(['The disc on day nine']);
  });

  it('sent twice is written once; the same picture on two leaves lies in the file once', async () => {
    const requestId = randomUUID();
    const first = await add({ requestId });
    expect((await add({ requestId })).entry.entryId).toBe(first.entry.entryId);
    const other = await desk.write('addVessel', jar());
    await add({ about: { kind: 'vessel', vesselId: other.vesselId } });
    expect(kept()).toBe(1);
    expect(await desk.client.photos.of({ about: { kind: 'vessel', vesselId: other.vesselId } })).toHaveLength(
      1,
    );
  });

  it('taken back, done again and struck: the picture stays, the line comes and goes', async () => {
    const { entry } = await add();
    const shown = async () => (await desk.client.photos.of({ about: { kind: 'batch', batchId } })).length;
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect([await shown(), kept()]).toEqual([0, 1]);
    await desk.client.ledger.redo({ requestId: randomUUID() });
    expect([await shown(), kept()]).toEqual([1, 1]);
    await desk.post({ kind: 'editCaption', photoId: entry.entryId, caption: 'Clear at last' });
    const [row] = await desk.client.photos.of({ about: { kind: 'batch', batchId } });
    expect(row?.caption).toBe('Clear at last');
    expect(
      await refusal(desk.client.ledger.strike({ requestId: randomUUID(), entryId: entry.entryId })),
    ).toMatchObject({ code: 'REFUSED', data: { type: 'LaterEntriesRest' } });
    await desk.client.ledger.undo({ requestId: randomUUID() });
    await desk.client.ledger.strike({ requestId: randomUUID(), entryId: entry.entryId });
    expect([await shown(), kept()]).toEqual([0, 1]);
    expect((await check()).report.faults).toEqual([]);
  });

  it('is kept by a rebuild and travels with a copy', async () => {
    const bytes = jpeg({ widthPx: 640, heightPx: 480 });
    await add({ bytes, caption: 'before' });
    rebuildProjections(desk.app.desk.services.session);
    expect(kept()).toBe(1);
    expect(await desk.client.photos.of({ about: { kind: 'batch', batchId } })).toHaveLength(1);
    const copy = join(scratch.folder, `copy-${count}.undercroft`);
    const steps = await desk.client.cellar.saveCopy({ file: copy });
    for (let step = await steps.next(); step.done !== true; step = await steps.next());
    const beside = new BetterSqlite(copy, { readonly: true });
    const content = beside.prepare('SELECT content FROM picture').pluck().get() as Uint8Array;
    beside.close();
    expect(sum(content)).toBe(sum(bytes));
  });

  it('of the largest size that is kept goes through whole', async () => {
    const scan = Array<number>(KEPT_BYTES_MAX - 2000).fill(0x5a);
    const bytes = jpeg({ widthPx: 640, heightPx: 480, scan });
    await add({ bytes });
    const { picture } = await desk.client.photos.picture({ checksum: sum(bytes) });
    expect(picture.size).toBe(bytes.length);
  });
});

describe('what is no photo is refused, and nothing of it is kept', () => {
  const svg = bytesOf('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
  it.each<[string, Given, string]>([
    ['nothing', { bytes: new Uint8Array() }, 'Empty'],
    ['a drawing with a script that calls itself a JPEG', { bytes: svg }, 'NotAJpeg'],
    ['another kind of picture', { bytes: png(640, 480) }, 'NotAJpeg'],
    ['a page behind a picture', { bytes: jpeg({ after: [...bytesOf('<script>1</script>')] }) }, 'Damaged'],
    ['a picture that says where it was taken', { bytes: jpeg({ notes: exif }) }, 'CarriesNotes'],
    ['more pixels than are kept', { bytes: jpeg({ widthPx: 3000 }) }, 'TooManyPixels'],
    ['another checksum than its own', { checksum: 'ab'.repeat(32) }, 'WrongChecksum'],
    ['another size than its own', { widthPx: 641 }, 'WrongSize'],
    ['50 MB', { bytes: new Uint8Array(50 * 1024 * 1024), checksum: 'ab'.repeat(32) }, 'TooLarge'],
    ['a thumbnail that is none', { thumbnail: svg }, 'NotAJpeg'],
    ['a thumbnail as large as a picture', { thumbnail: jpeg({ widthPx: 640 }) }, 'TooManyPixels'],
  ])('%s', async (_what, given, type) => {
    const before = lines();
    expect(await refusal(add(given))).toMatchObject({ code: 'PICTURE_REFUSED', data: { type } });
    expect([kept(), lines()]).toEqual([0, before]);
  });

  it('of a vessel that is not there: its picture is not kept either', async () => {
    const about = { kind: 'vessel', vesselId: randomUUID() as VesselId } as const;
    expect(await refusal(add({ about }))).toMatchObject({ code: 'REFUSED', data: { type: 'NotFound' } });
    expect(kept()).toBe(0);
  });

  it('an act that names a picture the file does not have is not written', async () => {
    const about = { kind: 'batch', batchId } as const;
    const act = {
      kind: 'addPhoto',
      about,
      checksum: 'ab'.repeat(32),
      widthPx: 4,
      heightPx: 3,
      caption: '',
    } as const;
    expect(await refusal(desk.post(act))).toMatchObject({
      ...{ code: 'REFUSED', data: { type: 'NotFound', what: 'picture' } },
    });
    const photoId = randomUUID() as EntryId;
    expect(await refusal(desk.post({ kind: 'editCaption', photoId, caption: 'x' }))).toMatchObject({
      ...{ code: 'REFUSED', data: { type: 'NotFound', what: 'photo' } },
    });
  });

  it('a picture that was never kept is not found', async () => {
    expect(await refusal(desk.client.photos.picture({ checksum: 'ab'.repeat(32) }))).toMatchObject({
      ...{ code: 'NOT_FOUND', data: { what: 'picture' } },
    });
  });
});

describe('a check of the file', () => {
  it('looks at each picture', async () => {
    await add();
    const { report, seen } = await check();
    expect(report.sound).toBe(true);
    expect(seen).toContain('pictures');
  });

  it('pictures cannot be changed or deleted, and one changed behind the back of the program is found', async () => {
    await add();
    expect(() => sqlite().exec(`UPDATE picture SET content = x'00'`)).toThrow(/never changed/);
    expect(() => sqlite().exec('DELETE FROM picture')).toThrow(/never deleted/);
    sqlite().exec('DROP TRIGGER picture_is_never_changed');
    sqlite().exec(`UPDATE picture SET content = x'ffd8ff', thumbnail = x'ff'`);
    const { report } = await check();
    expect(report.faults.map(({ type }) => type)).toEqual(['PictureDamaged', 'PictureDamaged']);
    sqlite().exec('DROP TRIGGER picture_is_never_deleted; DELETE FROM picture');
    expect((await check()).report.faults.map(({ type }) => type)).toEqual(['PictureMissing']);
  });
});

describe('a tasting', () => {
  it('is written, undone and found again by its words', async () => {
    const about = { kind: 'vessel', vesselId } as const;
    await desk.post({
      ...{ kind: 'tasteNote', about, words: ['apple', 'sharp'], score: 4 },
      ...{ text: 'like biting a russet', by: 'the neighbour' },
    });
    expect(sqlite().prepare('SELECT words, score, tasted_by FROM tasting').get()).toEqual({
      ...{ words: '["apple","sharp"]', score: 4, tasted_by: 'the neighbour' },
    });
    const found = await desk.client.find.everywhere({ text: 'russet', limit: 5 });
    expect(found.days).toHaveLength(1);
    expect((await check()).report.faults).toEqual([]);
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(sqlite().prepare('SELECT COUNT(*) FROM tasting').pluck().get()).toBe(0);
    expect((await check()).report.faults).toEqual([]);
  });
});
