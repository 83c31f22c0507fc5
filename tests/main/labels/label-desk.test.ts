import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { LabelOrder } from '#core/contract/labels.ts';
import { BUILT_IN_LAYOUTS } from '#core/labels/layouts.ts';
import type { OwnLayout } from '#core/labels/layout.ts';
import { openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';
import { cellarOf, orderOf, printed } from './label-cellar.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let file = 0;
let cellar = '';
let jars: LabelOrder['jars'];
beforeEach(async () => {
  cellar = join(scratch.folder, `desk-${(file += 1)}.undercroft`);
  desk = openDeskOn(cellar);
  const batches = await cellarOf(desk, ['Plum', 'Pear', 'Apple']);
  jars = batches.map(({ batchId }) => ({ of: { kind: 'batch' as const, batchId }, copies: 2 }));
});
afterEach(() => {
  desk.close();
});

const MINE: OwnLayout = {
  ...{
    key: '',
    name: 'Jam jars',
    told: 'mm',
    shape: 'rectangle',
    paper: 'own',
    pageWidthMm: 100,
    pageHeightMm: 150,
  },
  ...{
    labelWidthMm: 45,
    labelHeightMm: 35,
    columns: 2,
    rows: 4,
    leftMm: 4,
    topMm: 4,
    gapAcrossMm: 2,
    gapDownMm: 1,
  },
  ...{ cutLines: false, roll: false },
};

describe('what the Label Desk keeps', () => {
  it('keeps layouts of the keeper’s own in the cellar, beside those that are always there', async () => {
    const { key, desk: kept } = await desk.client.labels.saveLayout(MINE);
    expect(kept.layouts.slice(0, BUILT_IN_LAYOUTS.length)).toEqual(BUILT_IN_LAYOUTS);
    expect(kept.layouts.at(-1)).toEqual({ ...MINE, key, own: true, measureFirst: false });
    await desk.client.labels.saveLayout({ ...MINE, key, name: 'Jam jars, new' });
    desk.close();
    desk = openDeskOn(cellar);
    const again = await desk.client.labels.desk();
    expect(again.layouts.at(-1)).toMatchObject({ key, name: 'Jam jars, new' });
    expect((await desk.client.labels.dropLayout({ key })).layouts).toHaveLength(BUILT_IN_LAYOUTS.length);
    await expect(desk.client.labels.dropLayout({ key })).rejects.toMatchObject({ code: 'NOT_FOUND' });
    await expect(desk.client.labels.dropLayout({ key: 'a4-3x7' })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it('refuses measures that do not fit their paper, with what is wrong', async () => {
    await expect(desk.client.labels.saveLayout({ ...MINE, labelWidthMm: 50 })).rejects.toMatchObject({
      code: 'LAYOUT_REFUSED',
      data: { problems: [{ type: 'WiderThanPaper', field: 'labelWidthMm' }] },
    });
    await expect(desk.client.labels.saveLayout({ ...MINE, key: 'own-nothing' })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it('keeps one calibration a printer and paper', async () => {
    const measured = {
      ...{ printer: 'Old Laser', paper: 'a4' as const, shiftAcrossMm: 0.4, shiftDownMm: -0.6 },
      ...{ rulerAcrossMm: 99.5, rulerDownMm: 100 },
    };
    await desk.client.labels.saveCalibration(measured);
    const { calibrations } = await desk.client.labels.saveCalibration({ ...measured, shiftAcrossMm: 1 });
    expect(calibrations).toEqual([{ ...measured, shiftAcrossMm: 1 }]);
    const preview = await desk.client.labels.preview({
      ...{ order: orderOf(jars, { printer: 'Old Laser' }), fromPage: 1, pages: 1 },
    });
    expect(preview.calibration).toEqual({ ...measured, shiftAcrossMm: 1 });
    const gone = await desk.client.labels.dropCalibration({ printer: 'Old Laser', paper: 'a4' });
    expect(gone.calibrations).toEqual([]);
  });

  it('remembers how far the sheet of a layout got, and forgets it on a new one', async () => {
    const taken = [
      { row: 1, column: 1 },
      { row: 2, column: 1 },
    ];
    const nowhere = { row: 8, column: 1 };
    const marked = await desk.client.labels.markUsed({ layoutKey: 'a4-3x7', taken: [...taken, nowhere] });
    expect(marked.used).toMatchObject([{ layoutKey: 'a4-3x7', taken, sheet: { columns: 3, rows: 7 } }]);
    expect((await desk.client.labels.markUsed({ layoutKey: 'a4-3x7', taken: [] })).used).toEqual([]);
    await expect(desk.client.labels.markUsed({ layoutKey: 'no-such', taken })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it('remembers a sheet of an own layout for as long as it is that sheet, and knows it again', async () => {
    const { key } = await desk.client.labels.saveLayout(MINE);
    const taken = [{ row: 3, column: 2 }];
    await desk.client.labels.markUsed({ layoutKey: key, taken });
    const save = async (change: Partial<OwnLayout>) =>
      (await desk.client.labels.saveLayout({ ...MINE, key, ...change })).desk.used;
    expect(await save({ leftMm: 4.3 })).toMatchObject([{ taken }]);
    // Four rows of two are other places than two rows of four would be, though there are as many.
    expect(await save({ columns: 1, rows: 4 })).toEqual([]);
    expect(await save({})).toMatchObject([{ taken }]);
  });

  it('and the House Rules leave each other alone', async () => {
    await desk.client.labels.markUsed({ layoutKey: 'a4-3x7', taken: [{ row: 1, column: 3 }] });
    await desk.client.houseRules.settle({ ...HOUSE_RULES_AT_FIRST, temperature: 'F' });
    expect((await desk.client.labels.desk()).used).toMatchObject([{ taken: [{ row: 1, column: 3 }] }]);
    await desk.client.labels.markUsed({ layoutKey: 'a4-3x7', taken: [] });
    expect(await desk.client.houseRules.read()).toEqual({ ...HOUSE_RULES_AT_FIRST, temperature: 'F' });
  });
});

describe('an order of labels', () => {
  it('begins at the place that was asked for, and shows all places of the sheet', async () => {
    const order = orderOf(jars, { startAt: 20 });
    const preview = await desk.client.labels.preview({ order, fromPage: 1, pages: 6 });
    expect(preview.places).toHaveLength(21);
    expect(preview.placed.map(({ page, place }) => [page, place])).toEqual([
      ...[
        [1, 20],
        [1, 21],
        [2, 1],
        [2, 2],
        [2, 3],
        [2, 4],
      ],
    ]);
    expect(preview).toMatchObject({ pages: 2, labels: 6, usedUpTo: 4, gone: [] });
    // Copies that are alike share their drawing.
    expect(preview.drawings).toHaveLength(3);
  });

  it('numbers its copies when that is asked', async () => {
    const order = orderOf(jars.slice(0, 1), { numbered: true });
    const { drawings } = await desk.client.labels.preview({ order, fromPage: 1, pages: 1 });
    const said = drawings.map(({ texts }) => texts.map(({ text }) => text).join(' '));
    expect(said).toEqual([expect.stringContaining('1 of 2'), expect.stringContaining('2 of 2')]);
  });

  it('says which of its jars are gone, and prints the others', async () => {
    await desk.client.ledger.undo({ requestId: '018f3a5c-7b1e-7c22-9d3f-000000000001' });
    const preview = await desk.client.labels.preview({ order: orderOf(jars), fromPage: 1, pages: 1 });
    expect(preview.gone).toEqual([2]);
    expect(preview.labels).toBe(4);
    expect((await printed(desk, orderOf(jars))).made.labels).toBe(4);
  });

  it('of nothing prints nothing', async () => {
    await expect(printed(desk, orderOf([]))).rejects.toMatchObject({ code: 'NOTHING_TO_PRINT' });
    await expect(printed(desk, orderOf(jars, { layoutKey: 'no-such' }))).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it('that would drop a caution is refused, and names the jars', async () => {
    const tiny: OwnLayout = {
      ...{
        ...MINE,
        pageWidthMm: 30,
        pageHeightMm: 20,
        labelWidthMm: 22,
        labelHeightMm: 12,
        columns: 1,
        rows: 1,
      },
    };
    const { key } = await desk.client.labels.saveLayout(tiny);
    await expect(printed(desk, orderOf(jars, { layoutKey: key }))).rejects.toMatchObject({
      code: 'DOES_NOT_FIT',
      data: { jars: [{ jar: 0, parts: ['caution'] }, { jar: 1 }, { jar: 2 }] },
    });
  });

  it('is written to a path whole or not at all, never over anything', async () => {
    const path = join(scratch.folder, `labels-${file}.pdf`);
    const run = async () => {
      const steps = await desk.client.labels.pdf({ order: orderOf(jars), path });
      for (;;) {
        const step = await steps.next();
        if (step.done === true) return step.value;
        expect(step.value.piece).toBe('');
      }
    };
    expect(await run()).toMatchObject({ file: path, labels: 6 });
    const first = readFileSync(path);
    expect(first.subarray(0, 5).toString()).toBe('%PDF-');
    expect(first.subarray(-6).toString().trim()).toBe('%%EOF');
    await expect(run()).rejects.toMatchObject({ code: 'FILE_REFUSED', data: { type: 'AlreadyThere' } });
    expect(readFileSync(path).equals(first)).toBe(true);
  });

  it('that is stopped leaves nothing behind', async () => {
    const path = join(scratch.folder, `stopped-${file}.pdf`);
    const stop = new AbortController();
    const many = orderOf([{ ...(jars[0] as LabelOrder['jars'][number]), copies: 900 }]);
    const steps = await desk.client.labels.pdf({ order: many, path }, { signal: stop.signal });
    await steps.next();
    await steps.next();
    stop.abort();
    await expect(
      (async () => {
        while ((await steps.next()).done !== true);
      })(),
    ).rejects.toThrow();
    expect(existsSync(path)).toBe(false);
    expect(readdirSync(scratch.folder).filter((name) => name.startsWith('stopped'))).toEqual([]);
  });

  it('finds what can be labelled by words, by kind, and by what was given', async () => {
    const search = (text: string, kinds: ('vessel' | 'batch' | 'lot')[]) =>
      desk.client.labels.jars({ text, of: null, kinds, limit: 50 });
    expect((await search('plum', ['batch'])).map(({ name }) => name)).toEqual(['Plum']);
    expect((await search('', ['vessel'])).length).toBe(4);
    expect((await search('v-2', ['vessel'])).map(({ id }) => id)).toEqual(['V-2']);
    const given = await desk.client.labels.jars({
      ...{ text: '', of: jars.map(({ of }) => of), kinds: ['batch' as const], limit: 50 },
    });
    expect(given.map(({ name }) => name)).toEqual(['Plum', 'Pear', 'Apple']);
  });
});
