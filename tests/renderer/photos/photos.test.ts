import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { PictureRefusal, type PhotoRow } from '#core/contract/photos.ts';
import { ok } from '#core/base/result.ts';
import type { BatchId, EntryId } from '#core/ledger/ids.ts';
import { FormReader } from '#renderer/acts/form-reader.ts';
import { browserTime } from '#renderer/acts/browser-time.ts';
import { preparePhoto, type ReadyPhoto } from '#renderer/photos/prepare-photo.ts';
import { buildPhotos, ChosenPhotos, offeredWhen } from '#renderer/photos/chosen-photos.svelte.ts';
import { filesIn, hasFiles, isWriting } from '#renderer/photos/files-in.ts';
import { photoViewer } from '#renderer/photos/photo-viewer.svelte.ts';
import type { Paint } from '#renderer/photos/paint.ts';
import { altOf, sayPhotoRefusal, sayPictureRefusal, WHAT_IS_KEPT } from '#renderer/words/photo-words.ts';
import { jpeg, png } from '../../core/pictures/pictures-for-tests.ts';
import { NOW_MS, uuid } from '../fake-cellar.ts';

const about = { kind: 'batch', batchId: uuid(11) as BatchId } as const;
const photo = (n: number, change: Partial<PhotoRow> = {}): PhotoRow => ({
  ...{ photoId: uuid(n) as EntryId, checksum: 'ab'.repeat(32), caption: '', atMs: NOW_MS },
  ...{ widthPx: 4, heightPx: 3, batchId: about.batchId, vesselId: null },
  ...change,
});
/** A file as the page is handed one; jsdom's own does not always give out its bytes. */
const fileOf = (bytes: Uint8Array<ArrayBuffer>, name: string, lastModified = NOW_MS): File => {
  const file = new File([bytes], name, { lastModified });
  Object.defineProperty(file, 'arrayBuffer', { value: () => Promise.resolve(bytes.buffer) });
  return file;
};

beforeEach(() => {
  vi.stubGlobal(
    'URL',
    Object.assign(URL, { createObjectURL: () => 'blob:x', revokeObjectURL: () => undefined }),
  );
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('making a photo ready', () => {
  const asked: string[] = [];
  const paint: Paint = (picture, sizes) => {
    asked.push(picture.type);
    const made = new Blob(['painted']);
    Object.defineProperty(made, 'arrayBuffer', {
      value: () => Promise.resolve(new TextEncoder().encode('painted').buffer),
    });
    return Promise.resolve(sizes.map(({ sidePxMax }) => ({ widthPx: sidePxMax, heightPx: 10, jpeg: made })));
  };

  test('gives the picture as painted, its thumbnail, and the checksum of what was painted', async () => {
    const ready = await preparePhoto(fileOf(png(4000, 3000), 'x.exe'), paint);
    // SHA-256 of the letters “painted”, worked out with coreutils sha256sum.
    const checksum = '69eac68c8b5f51c6166303a70da21860a2ac59e91d4a64c26b3e8a24d1adae86';
    expect(ready).toMatchObject({ ok: true, value: { checksum, widthPx: 2048, heightPx: 10 } });
    expect(asked).toEqual(['image/png']);
  });

  test('what is no picture, or too many pixels, never reaches the painter', async () => {
    asked.length = 0;
    const svg = new TextEncoder().encode('<svg onload="alert(1)"/>');
    expect(await preparePhoto(fileOf(svg, 'a.jpg'), paint)).toMatchObject({ error: { type: 'NotAPicture' } });
    expect(await preparePhoto(fileOf(png(20_000, 20_000), 'bomb.png'), paint)).toMatchObject({
      error: { type: 'TooManyPixels' },
    });
    const large = { size: 50 * 1024 * 1024, arrayBuffer: () => Promise.reject(new Error('was read')) };
    expect(await preparePhoto(large as unknown as Blob, paint)).toMatchObject({
      error: { type: 'TooLarge' },
    });
    expect(asked).toEqual([]);
  });

  test('what the browser cannot paint is said to be that', async () => {
    const broken: Paint = () => Promise.resolve(null);
    expect(await preparePhoto(fileOf(jpeg(), 'a.jpg'), broken)).toMatchObject({
      error: { type: 'Undecodable', kind: 'jpeg' },
    });
  });
});

describe('the pictures of a form', () => {
  const ready = (checksum: string): ReadyPhoto => ({
    ...{ checksum, widthPx: 640, heightPx: 480 },
    ...{ picture: new File([], 'p.jpg'), thumbnail: new File([], 't.jpg') },
  });
  const reader = (fields: Record<string, string>): FormReader =>
    new FormReader({ fields, kept: {}, house: HOUSE_RULES_AT_FIRST, nowMs: NOW_MS, localTime: browserTime });
  const sums = ['aa'.repeat(32), 'bb'.repeat(32)];

  test('each becomes an act with its own caption and its own time', async () => {
    let n = 0;
    const chosen = new ChosenPhotos(
      () => NOW_MS,
      () => Promise.resolve(ok(ready(sums[n++] ?? ''))),
    );
    const taken = await chosen.take([
      fileOf(jpeg(), 'a.jpg', NOW_MS - 3 * 86_400_000),
      fileOf(jpeg(), 'b.jpg'),
    ]);
    expect(taken.map(offeredWhen)).toEqual([expect.stringMatching(/^2026-11-22 \d\d:\d\d$/), 'now']);
    const read = reader({ caption1: 'One', when1: '2026-11-22 10:00', caption2: '', when2: 'now' });
    const moments = new Map<string, number | null>();
    const steps = buildPhotos(read, about, chosen, moments);
    expect(read.problems).toEqual([]);
    expect(steps.map((step) => step([]))).toMatchObject([
      { kind: 'addPhoto', about, checksum: sums[0], caption: 'One', widthPx: 640 },
      { checksum: sums[1], caption: '' },
    ]);
    expect(moments.get(sums[1] ?? '')).toBe(NOW_MS);
    expect(moments.get(sums[0] ?? '')).toBeLessThan(NOW_MS - 2 * 86_400_000);
  });

  test('none, one still being read, and a time to come are asked about', async () => {
    let finish: (value: ReturnType<typeof ok<ReadyPhoto>>) => void = () => undefined;
    const chosen = new ChosenPhotos(
      () => NOW_MS,
      () => new Promise((settle) => (finish = settle)),
    );
    const problems = (fields: Record<string, string> = {}): string[] => {
      const read = reader(fields);
      buildPhotos(read, about, chosen, new Map());
      return read.problems.map(({ field }) => field);
    };
    expect(problems()).toEqual(['files']);
    const taking = chosen.take([fileOf(jpeg(), 'a.jpg')]);
    expect([chosen.isReading, ...problems()]).toEqual([true, 'files']);
    finish(ok(ready(sums[0] ?? '')));
    await taking;
    expect(problems({ when1: '2027-01-01' })).toEqual(['when1']);
    expect(problems({ when1: 'now', caption1: 'x'.repeat(241) })).toEqual(['caption1']);
    chosen.remove(1);
    expect([chosen.list.length, ...problems()]).toEqual([0, 'files']);
  });

  test('the same picture twice, and one that cannot be read, are said to be that', async () => {
    const chosen = new ChosenPhotos(
      () => NOW_MS,
      (file) =>
        'name' in file && file.name === 'gone.jpg'
          ? Promise.reject(new Error('gone'))
          : Promise.resolve(ok(ready(sums[0] ?? ''))),
    );
    await chosen.take(['a.jpg', 'again.jpg', 'gone.jpg'].map((name) => fileOf(jpeg(), name)));
    expect(chosen.list.map(({ wrong }) => wrong)).toEqual([
      '',
      '“again.jpg” is the same picture as another one here.',
      '“gone.jpg” could not be read. Choose it again.',
    ]);
    chosen.clear();
    expect(chosen.list).toEqual([]);
  });
});

describe('what is dropped or pasted', () => {
  test('is taken only where there are files and nobody is writing', () => {
    expect(filesIn(null)).toEqual([]);
    expect(hasFiles(null)).toBe(false);
    expect(hasFiles({ types: ['text/plain'] } as unknown as DataTransfer)).toBe(false);
    expect(hasFiles({ types: ['Files'] } as unknown as DataTransfer)).toBe(true);
    expect(isWriting(document.createElement('textarea'))).toBe(true);
    expect(isWriting(document.body)).toBe(false);
    expect(isWriting(null)).toBe(false);
  });
});

describe('the viewer', () => {
  test('goes by keys and stops at the ends; other keys are left alone', () => {
    const photos = [photo(1), photo(2), photo(3)];
    photoViewer.show(photos, uuid(2), 'Photo of it');
    const key = (name: string, held = {}): boolean =>
      photoViewer.heed({ key: name, ctrlKey: false, metaKey: false, altKey: false, ...held });
    const at = (): number => photoViewer.index;
    expect([photoViewer.isOpen, at()]).toEqual([true, 1]);
    expect([key('ArrowRight'), at(), key('ArrowRight'), at()]).toEqual([true, 2, true, 2]);
    expect([key('Home'), at(), key('ArrowLeft'), at(), key('End'), at()]).toEqual([
      true,
      0,
      true,
      0,
      true,
      2,
    ]);
    expect([key('a'), key('ArrowLeft', { altKey: true }), at()]).toEqual([false, false, 2]);
    photoViewer.close();
    photoViewer.show(photos, uuid(9), '');
    expect(photoViewer.isOpen).toBe(false);
  });
});

describe('photos in words', () => {
  test('a caption is the words for those who do not see it, else what it is of and when', () => {
    const rules = HOUSE_RULES_AT_FIRST;
    expect(altOf(photo(1, { caption: 'The disc' }), 'Photo of Cider', rules)).toBe('The disc');
    expect(altOf(photo(1), 'Photo of Cider', rules)).toBe('Photo of Cider, 2026-11-25, without a caption');
  });

  test('each refusal of a file is a sentence that names it and says what would do', () => {
    expect(sayPhotoRefusal({ type: 'TooLarge', bytes: 52_428_800, bytesMax: 41_943_040 }, 'a.jpg')).toBe(
      '“a.jpg” has 50 MB; at most 40 MB is taken. Make it smaller first.',
    );
    expect(sayPhotoRefusal({ type: 'NotAPicture' }, '')).toMatch(/^What was pasted is no picture/);
    const size = { widthPx: 20_000, heightPx: 20_000 };
    expect(sayPhotoRefusal({ type: 'TooManyPixels', pixelsMax: 60e6, ...size }, 'x'.repeat(99))).toMatch(
      /…” has 20,000 × 20,000 pixels; at most 60 million/,
    );
    for (const type of ['Unreadable', 'Undecodable'] as const) {
      expect(sayPhotoRefusal({ type, kind: 'avif' }, 'a')).toContain('AVIF');
    }
    expect(sayPhotoRefusal({ type: 'Empty' }, 'a')).toContain('empty');
    expect(WHAT_IS_KEPT).toContain('40 MB');
    expect(WHAT_IS_KEPT).toContain('place');
  });

  test('each refusal of the host has a sentence of its own', () => {
    const facts = { bytes: 9, bytesMax: 8, sidePxMax: 2048, widthPx: 1, heightPx: 1 };
    const said = PictureRefusal.options.map((option) =>
      sayPictureRefusal(PictureRefusal.parse({ ...facts, type: option.shape.type.value })),
    );
    expect(new Set(said).size).toBe(PictureRefusal.options.length);
    for (const sentence of said) expect(sentence).toMatch(/\.$/);
  });
});
