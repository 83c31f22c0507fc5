import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LabelOrder } from '#core/contract/labels.ts';
import { BUILT_IN_LAYOUTS } from '#core/labels/layouts.ts';
import { openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';
import { cellarOf, HARD_NAMES, orderOf, printed } from './label-cellar.ts';
import { readPdf } from './read-pdf.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let jars: LabelOrder['jars'];
let codes: string[];
beforeAll(async () => {
  desk = openDeskOn(join(scratch.folder, 'labels.undercroft'));
  const batches = await cellarOf(desk, HARD_NAMES);
  jars = batches.map(({ batchId }) => ({ of: { kind: 'batch' as const, batchId }, copies: 1 }));
  codes = batches.map(({ code }) => code);
});
afterAll(() => {
  desk.close();
  scratch.remove();
});

/** A fifth of a millimetre, as far as a printed label may be off. */
const CLOSE_MM = 0.2;

/** The layouts as they are measured, worked out here once more: column and row of each place, counted row by row. */
function cornersOf(layout: (typeof BUILT_IN_LAYOUTS)[number]): { xMm: number; yMm: number }[] {
  const corners: { xMm: number; yMm: number }[] = [];
  for (let row = 0; row < layout.rows; row += 1) {
    for (let column = 0; column < layout.columns; column += 1) {
      corners.push({
        xMm: layout.leftMm + column * (layout.labelWidthMm + layout.gapAcrossMm),
        yMm: layout.topMm + row * (layout.labelHeightMm + layout.gapDownMm),
      });
    }
  }
  return corners;
}

describe('a PDF of labels, read back', () => {
  it.each(BUILT_IN_LAYOUTS.map((layout) => [layout.key, layout] as const))(
    '%s has its page size, and every label on its place to 0.2 mm',
    async (key, layout) => {
      const [plain] = jars.slice(6);
      if (plain === undefined) throw new Error('no jar');
      const corners = cornersOf(layout);
      const copies = Math.min(corners.length, 5000) + 1;
      const order = orderOf([{ ...plain, copies }], { layoutKey: key, without: ['caution'] });
      const preview = await desk.client.labels.preview({ order, fromPage: 1, pages: 1 });
      const [drawing] = preview.drawings;
      const inLabel = drawing?.texts.find(({ text }) => text === codes[6] || text.startsWith('Started'));
      if (inLabel === undefined) throw new Error('the label says nothing');
      const { bytes, made } = await printed(desk, order);
      const { pages } = await readPdf(bytes);
      expect(pages).toHaveLength(2);
      expect(made).toMatchObject({ pages: 2, labels: copies, usedUpTo: 1, bytes: bytes.length });
      for (const page of pages) {
        expect(Math.abs(page.widthMm - layout.pageWidthMm)).toBeLessThan(CLOSE_MM);
        expect(Math.abs(page.heightMm - layout.pageHeightMm)).toBeLessThan(CLOSE_MM);
      }
      const said =
        pages[0]?.texts.filter(({ text }) => inLabel.text.startsWith(text) && text.length > 3) ?? [];
      expect(said).toHaveLength(corners.length);
      for (const corner of corners) {
        const there = said.some(
          ({ xMm, yMm }) =>
            Math.abs(xMm - corner.xMm - inLabel.xMm) < CLOSE_MM &&
            Math.abs(yMm - corner.yMm - inLabel.yMm) < CLOSE_MM,
        );
        expect(there, JSON.stringify(corner)).toBe(true);
      }
    },
  );

  it('carries its fonts, its language and its title, and nothing that runs', async () => {
    const { bytes } = await printed(desk, orderOf(jars));
    const { pages, raw, lang, title } = await readPdf(bytes);
    const fonts = pages.flatMap((page) => page.fonts);
    expect(fonts.length).toBeGreaterThan(4);
    for (const font of fonts) expect(font, font.name).toMatchObject({ embedded: true });
    const count = (what: string): number => raw.split(what).length - 1;
    expect(count('/FontFile2')).toBe(count('/Type /FontDescriptor'));
    expect(count('/FontFile2')).toBeGreaterThan(4);
    // Subsets carry a tag of six letters before their name (ISO 32000, font subsets).
    for (const [, font = ''] of raw.matchAll(/\/BaseFont \/(\S+)/gu)) expect(font).toMatch(/^[A-Z]{6}\+/u);
    expect(raw).not.toMatch(/\/JavaScript|\/JS |\/OpenAction|\/Launch|\/URI/u);
    expect(raw).toContain('/PrintScaling /None');
    expect(lang).toBe('en');
    expect(title).toBe('Labels, 2026-11-25');
  });

  it('has every code read by another program at 300 dpi, hard names or not, and each finds its batch', async () => {
    const order = orderOf(jars, { layoutKey: 'a4-2x4' });
    const preview = await desk.client.labels.preview({ order, fromPage: 1, pages: 6 });
    const { bytes } = await printed(desk, order);
    const { pages } = await readPdf(bytes);
    const pictures = await Promise.all(pages.map((page) => page.render(300)));
    expect(preview.placed).toHaveLength(HARD_NAMES.length);
    for (const { page, xMm, yMm, drawing, jar } of preview.placed) {
      const code = preview.drawings[drawing]?.code;
      if (code === null || code === undefined) throw new Error(`no code on ${HARD_NAMES[jar] ?? ''}`);
      const quiet = 4 * code.moduleMm;
      const side = code.rows.length * code.moduleMm;
      const [x, y] = [xMm + code.xMm, yMm + code.yMm];
      const read = pictures[page - 1]?.codeIn(x - quiet, y - quiet, side + 2 * quiet, side + 2 * quiet);
      expect(read).toMatchObject({ text: `UC:${codes[jar] ?? ''}`, version: 1 });
      expect(Math.abs((read?.xMm ?? 0) - x)).toBeLessThan(CLOSE_MM);
      expect(Math.abs((read?.yMm ?? 0) - y)).toBeLessThan(CLOSE_MM);
      const found = await desk.client.find.label({ id: read?.text ?? '' });
      expect(found).toMatchObject({ kind: 'batch', batch: { name: HARD_NAMES[jar] } });
    }
  });

  it('has its code on whole dots wherever on the sheet it stands', async () => {
    const [plain] = jars.slice(6);
    if (plain === undefined) throw new Error('no jar');
    const moved = {
      printer: 'By the door',
      paper: 'letter' as const,
      shiftAcrossMm: 0.37,
      shiftDownMm: -0.61,
    };
    await desk.client.labels.saveCalibration({ ...moved, rulerAcrossMm: 100, rulerDownMm: 100 });
    for (const layoutKey of ['a4-3x7', 'let-round2', 'let-tag']) {
      const order = orderOf([{ ...plain, copies: 21 }], { layoutKey, printer: 'By the door' });
      const isMoved = layoutKey.startsWith('let');
      const [across, down] = isMoved ? [moved.shiftAcrossMm, moved.shiftDownMm] : [0, 0];
      const preview = await desk.client.labels.preview({ order, fromPage: 1, pages: 1 });
      const { pages } = await readPdf((await printed(desk, order)).bytes);
      const picture = await pages[0]?.render(300);
      for (const { xMm, yMm, drawing } of preview.placed) {
        const code = preview.drawings[drawing]?.code;
        if (code === null || code === undefined) throw new Error(`no code on ${layoutKey}`);
        const side = code.rows.length * code.moduleMm;
        const [x, y] = [xMm + code.xMm + across, yMm + code.yMm + down];
        expect(picture?.isCrisp(x, y, side, side), `${layoutKey} ${yMm}`).toBe(true);
      }
    }
  });

  it.each([
    [300, false],
    [300, true],
    [600, false],
    [600, true],
  ] as const)('has its code read at %i dpi, each dot black or white: %s', async (dpi, oneBit) => {
    const without = ['what' as const, 'batchStarted' as const, 'stages' as const];
    const order = orderOf(jars.slice(4, 8), { layoutKey: 'roll-89x36', without });
    const preview = await desk.client.labels.preview({ order, fromPage: 1, pages: 6 });
    const { pages } = await readPdf((await printed(desk, order)).bytes);
    for (const { page, drawing, jar } of preview.placed) {
      const code = preview.drawings[drawing]?.code;
      if (code === null || code === undefined) throw new Error('no code');
      const quiet = 4 * code.moduleMm;
      const side = code.rows.length * code.moduleMm;
      const picture = await pages[page - 1]?.render(dpi, oneBit);
      // What lies beyond the label's edge is paper; the quiet zone above reaches over it.
      const [x, y] = [code.xMm - quiet, Math.max(0, code.yMm - quiet)];
      const read = picture?.codeIn(x, y, side + 2 * quiet, side + 2 * quiet);
      expect(read?.text).toBe(`UC:${codes[jar + 4] ?? ''}`);
    }
  });

  it('tells of each hard name what did not print, and leaves none out in silence', async () => {
    const order = orderOf(jars, { layoutKey: 'a4-2x4' });
    const { told } = await desk.client.labels.preview({ order, fromPage: 1, pages: 1 });
    const notes = (at: number) => told[at]?.notes ?? [];
    const missing = (at: number) => notes(at).flatMap((n) => (n.type === 'willNotPrint' ? n.characters : []));
    expect(missing(HARD_NAMES.indexOf('梅酢 and 米酢'))).toEqual(['梅', '酢', '米']);
    for (const at of [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]) expect(missing(at), HARD_NAMES[at]).toEqual([]);
    expect(notes(8)).toContainEqual({ type: 'cut', part: 'name' });
  });

  it('has the text of every label in it', async () => {
    const order = orderOf(jars, { layoutKey: 'a4-2x4' });
    const { bytes } = await printed(desk, order);
    const { pages } = await readPdf(bytes);
    const all = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join('\n');
    for (const code of codes) expect(all).toContain(code);
    const squeezed = all.replace(/\s+/gu, '');
    for (const piece of [
      'Żółć',
      'Nướcmắm',
      'PhúQuốc',
      '<script>alert(1)</script>',
      'Plumeniw',
      'Kingstonblack',
    ]) {
      expect(squeezed).toContain(piece);
    }
    // Letters that join are read back as the letters they are, whichever way the reader turns the line.
    const letters = new Set(all);
    for (const letter of 'خلالتفاححומץתפוחים') expect(letters.has(letter), letter).toBe(true);
  });

  it('moves and stretches by the calibration of the printer', async () => {
    const calibration = {
      ...{ printer: 'Old Laser', paper: 'a4' as const, shiftAcrossMm: 0.4, shiftDownMm: -0.6 },
      ...{ rulerAcrossMm: 99, rulerDownMm: 100 },
    };
    await desk.client.labels.saveCalibration(calibration);
    const [one] = jars.slice(6);
    if (one === undefined) throw new Error('no jar');
    const read = async (printer: string | null) => {
      const { bytes } = await printed(desk, orderOf([{ ...one, copies: 3 }], { printer }));
      const texts = (await readPdf(bytes)).pages[0]?.texts ?? [];
      return texts.filter(({ text }) => text === codes[6]);
    };
    const [as, moved] = [await read(null), await read('Old Laser')];
    expect(as).toHaveLength(3);
    as.forEach(({ xMm, yMm }, at) => {
      expect(moved[at]?.xMm).toBeCloseTo((xMm * 100) / 99 + 0.4, 1);
      expect(moved[at]?.yMm).toBeCloseTo(yMm - 0.6, 1);
    });
  });
});

describe('the test sheet', () => {
  it('is drawn for the page with the very marks of the PDF, and corrected only when that is asked', async () => {
    const calibration = {
      ...{ printer: 'Downstairs', paper: 'letter' as const, shiftAcrossMm: 1, shiftDownMm: 2 },
      ...{ rulerAcrossMm: 100, rulerDownMm: 100 },
    };
    await desk.client.labels.saveCalibration(calibration);
    const asked = { layoutKey: 'let-3x10', printer: 'Downstairs' };
    const plain = await desk.client.labels.testSheetDrawn({ ...asked, corrected: false });
    const moved = await desk.client.labels.testSheetDrawn({ ...asked, corrected: true });
    expect(plain.calibration).toBeNull();
    expect(moved).toMatchObject({ calibration, marks: plain.marks });
    const { pdf } = await desk.client.labels.testSheet({ ...asked, corrected: true });
    const { pages } = await readPdf(new Uint8Array(await pdf.arrayBuffer()));
    const drawn = plain.marks.flatMap(({ drawing, xMm, yMm }) =>
      drawing.texts.map((run) => ({ text: run.text, xMm: run.xMm + xMm, yMm: run.yMm + yMm })),
    );
    for (const { text, xMm, yMm } of drawn) {
      const there = pages[0]?.texts.some(
        (one) =>
          text.startsWith(one.text) &&
          Math.abs(one.xMm - xMm - 1) < CLOSE_MM &&
          Math.abs(one.yMm - yMm - 2) < CLOSE_MM,
      );
      expect(there, text).toBe(true);
    }
    await expect(
      desk.client.labels.testSheetDrawn({ ...asked, layoutKey: 'no-such', corrected: false }),
    ).rejects.toMatchObject({ code: 'NOT_FOUND' });
  });

  it('is a page of the layout’s paper with rulers of 100 mm', async () => {
    const { pdf, name } = await desk.client.labels.testSheet({
      ...{ layoutKey: 'let-3x10', printer: null, corrected: false },
    });
    expect(name).toBe('Test sheet let-3x10.pdf');
    const { pages } = await readPdf(new Uint8Array(await pdf.arrayBuffer()));
    expect(pages).toHaveLength(1);
    const [page] = pages;
    expect(page?.widthMm).toBeCloseTo(215.9, 1);
    expect(page?.texts.map(({ text }) => text)).toContain('100 mm');
    const picture = await page?.render(300);
    // The ruler across begins 50 mm left of the middle and ends 50 mm right of it.
    const tick = (xMm: number): boolean => picture?.isBlank(xMm - 0.3, 279.4 / 2 - 2.9, 0.6, 1) ?? true;
    expect([215.9 / 2 - 50, 215.9 / 2 + 50].map(tick)).toEqual([false, false]);
  });
});
