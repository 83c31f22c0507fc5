import type { LabelJar, LabelPreview } from '#core/contract/labels.ts';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { BUILT_IN_LAYOUTS } from '#core/labels/layouts.ts';
import { placesOf } from '#core/labels/placing.ts';
import {
  buildCalibration,
  fieldsOfCalibration,
  NOTHING_MEASURED,
  shrinks,
} from '#renderer/labels/build-calibration.ts';
import { buildLayout, fieldsOf, retold, type LayoutFields } from '#renderer/labels/build-layout.ts';
import {
  COPIES_MAX,
  keptJars,
  keyOfLabelled,
  labelsOf,
  readCopies,
  withCopies,
  withJars,
  withoutJar,
} from '#renderer/labels/chosen-jars.ts';
import { codePath } from '#renderer/labels/code-path.ts';
import { correctionMatrix } from '#renderer/labels/correction-matrix.ts';
import { choicesAtFirst, choicesFrom } from '#renderer/labels/desk-choices.ts';
import { parseLength } from '#renderer/labels/parse-length.ts';
import { stepAmongPlaces } from '#renderer/labels/step-among-places.ts';
import { bytesOf } from '#renderer/paper/bytes-of.ts';
import {
  jarName,
  lengthNumber,
  sayDoNotFit,
  sayLabelNote,
  sayLayout,
  sayPrinted,
  sayUsed,
} from '#renderer/words/label-words.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { uuid } from '../fake-cellar.ts';

const layout = (key: string) => {
  const found = BUILT_IN_LAYOUTS.find((one) => one.key === key);
  if (found === undefined) throw new Error(key);
  return found;
};

const jar = (n: number, change: Partial<LabelJar> = {}): LabelJar => ({
  ...{
    of: { kind: 'vessel', vesselId: uuid(n) as VesselId },
    id: `V-${n}`,
    name: `Jar ${n}`,
    ferment: 'cider',
  },
  ...{
    stage: 'ready',
    startedAtMs: 0,
    bottledAtMs: null,
    volumeUl: 1_000_000,
    vesselNumber: n,
    spot: `A${n}`,
  },
  ...{ copiesWanted: 1, batchId: uuid(50 + n) as BatchId },
  ...change,
});

describe('a length as people write it', () => {
  const mm = (text: string, unit: 'mm' | 'in' = 'mm'): number | null => {
    const read = parseLength(text, unit, true);
    return read.ok ? Number(read.mm.toFixed(4)) : null;
  };

  // An inch is 25.4 mm exactly: international yard and pound agreement of 1959.
  it.each([
    ['63.5', 'mm', 63.5],
    ['63,5', 'mm', 63.5],
    ['63,5 mm', 'in', 63.5],
    ['1', 'in', 25.4],
    ['2 5/8', 'in', 66.675],
    ['2⅝', 'in', 66.675],
    ['2 5/8"', 'mm', 66.675],
    ['½', 'in', 12.7],
    ['5/32 in', 'mm', 3.9688],
    ['6 cm', 'mm', 60],
    ['−0.6', 'mm', -0.6],
    ['+0.4', 'mm', 0.4],
  ] as const)('%s in %s is %f mm', (text, unit, expected) => {
    expect(mm(text, unit)).toBe(expected);
  });

  it.each(['', ' ', 'wide', '1/0', '2 5/', '--1', '12 ft', '<b>3</b>', '1e9', '٣'])(
    'takes no “%s”',
    (text) => {
      expect(mm(text)).toBeNull();
    },
  );

  it('takes no length under nothing where none can be', () => {
    expect(parseLength('-1', 'mm').ok).toBe(false);
  });

  it('reads what it writes, in sixteenths of an inch and in tenths of a millimetre', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 300 }),
        fc.constantFrom('mm' as const, 'in' as const),
        (n, unit) => {
          const length = unit === 'mm' ? n / 10 : (n / 16) * 25.4;
          const read = parseLength(lengthNumber(length, unit), unit);
          expect(read.ok && Math.abs(read.mm - length) < 1e-9).toBe(true);
        },
      ),
    );
  });

  it('never throws on any text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const read = parseLength(text, 'in', true);
        expect(!read.ok || Number.isFinite(read.mm)).toBe(true);
      }),
    );
  });
});

describe('a layout of one’s own', () => {
  const sound = fieldsOf(layout('a4-3x7'), 'My sheet');

  it.each(BUILT_IN_LAYOUTS.map((one) => [one.key, one] as const))(
    'finds %s sound as it fills the form',
    (_key, one) => {
      const built = buildLayout(fieldsOf(one, 'Mine'), '');
      expect(built.ok ? null : built.problems).toBeNull();
      if (built.ok) expect(built.layout.labelWidthMm).toBeCloseTo(one.labelWidthMm, 2);
    },
  );

  const problemsOf = (change: Partial<LayoutFields>) => {
    const built = buildLayout({ ...sound, ...change }, '');
    return built.ok ? {} : built.problems;
  };

  it('says by how much the columns are wider than the paper', () => {
    expect(problemsOf({ columns: '4' }).labelWidthMm).toMatch(
      /^The columns are wider than the paper by 58\.75\smm/,
    );
    expect(problemsOf({ rows: '8' }).labelHeightMm).toMatch(/^The rows are higher than the paper/);
  });

  it('says what is missing or no length, each beside its field', () => {
    expect(problemsOf({ name: ' ' }).name).toMatch(/name/);
    expect(problemsOf({ labelWidthMm: '' }).labelWidthMm).toBe('Type a length in mm.');
    expect(problemsOf({ labelWidthMm: 'wide' }).labelWidthMm).toMatch(/such as 63\.5/);
    expect(problemsOf({ labelWidthMm: '3' }).labelWidthMm).toMatch(/^From 10/);
    expect(problemsOf({ columns: '2.5' }).columns).toMatch(/whole number/);
    expect(problemsOf({ columns: '0' }).columns).toMatch(/1 to 40/);
  });

  it('wants a round label as high as it is wide, and one label to a page on a roll', () => {
    expect(problemsOf({ shape: 'round' }).labelHeightMm).toMatch(/as high as it is wide/);
    const rolled = { paper: 'own', roll: true, pageWidthMm: '210', pageHeightMm: '297' } as const;
    expect(problemsOf(rolled).columns).toMatch(/one column and one row/);
  });

  it('keeps its lengths when it is told in inches, and what cannot be read as it was typed', () => {
    const told = retold({ ...sound, gapAcrossMm: 'some' }, 'in');
    expect(told).toMatchObject({ told: 'in', labelWidthMm: '2 1/2', gapAcrossMm: 'some' });
    expect(buildLayout({ ...told, gapAcrossMm: '0.0984' }, '').ok).toBe(true);
  });
});

describe('the calibration of a printer', () => {
  it('reads what was measured, and fills the form with it again', () => {
    const fields = {
      ...NOTHING_MEASURED,
      printer: 'The one upstairs',
      shiftAcrossMm: '0,4',
      shiftDownMm: '−0.6',
    };
    const built = buildCalibration(fields, 'a4');
    expect(built).toMatchObject({
      ok: true,
      calibration: { shiftAcrossMm: 0.4, shiftDownMm: -0.6, paper: 'a4' },
    });
    if (built.ok) expect(buildCalibration(fieldsOfCalibration(built.calibration), 'a4')).toEqual(built);
  });

  it('says which number cannot be, and why', () => {
    const built = buildCalibration({ ...NOTHING_MEASURED, shiftAcrossMm: '12', rulerDownMm: '90' }, 'a4');
    expect(built.ok ? {} : Object.keys(built.problems)).toEqual(['printer', 'shiftAcrossMm', 'rulerDownMm']);
  });

  it('knows a printer that shrinks pages by a ruler under 99 mm', () => {
    expect(shrinks({ ...NOTHING_MEASURED, rulerAcrossMm: '97,5' })).toBe(true);
    expect(shrinks(NOTHING_MEASURED)).toBe(false);
  });

  it('stretches a page so that the ruler comes out right, and then moves it', () => {
    const matrix = correctionMatrix({
      ...{ printer: 'x', paper: 'a4', shiftAcrossMm: 0.4, shiftDownMm: -0.6 },
      ...{ rulerAcrossMm: 98, rulerDownMm: 100 },
    });
    expect(matrix).toBe(`matrix(${100 / 98} 0 0 1 0.4 -0.6)`);
    expect(correctionMatrix(null)).toBeUndefined();
  });
});

describe('the jars chosen', () => {
  it('come once, keep their copies, and bring as many as one would want', () => {
    const first = withCopies(
      withJars([], [jar(1), jar(2, { copiesWanted: 9 })]),
      keyOfLabelled(jar(1).of),
      4,
    );
    const more = withJars(first, [jar(2), jar(3), jar(1)]);
    expect(more.map(({ jar: { id }, copies }) => `${id} ${copies}`)).toEqual(['V-1 4', 'V-2 9', 'V-3 1']);
    expect(labelsOf(more)).toBe(14);
    expect(withoutJar(more, keyOfLabelled(jar(2).of))).toHaveLength(2);
  });

  it('reads whole numbers of labels alone', () => {
    expect(['1', ' 12 ', '1000'].map(readCopies)).toEqual([1, 12, COPIES_MAX]);
    expect(['0', '1001', '1.5', '-3', '', 'nine', '१'].map(readCopies)).toEqual(Array(7).fill(null));
  });

  it('are found again by the window in this cellar alone, and never throw on what lies there', () => {
    const kept = JSON.stringify({ file: '/a', jars: [{ of: jar(1).of, copies: 3 }] });
    expect(keptJars(kept, '/a')).toHaveLength(1);
    expect(keptJars(kept, '/b')).toEqual([]);
    for (const text of [null, '', '{', '[]', '{"file":"/a","jars":[{"of":1}]}'])
      expect(keptJars(text, '/a')).toEqual([]);
  });

  it('are called by their name, an empty vessel by its number, and a lot by its id', () => {
    expect(jarName(jar(1))).toBe('Jar 1');
    expect(jarName(jar(7, { name: '' }))).toBe('Vessel 7');
    const lot = { kind: 'lot', lotId: uuid(3) as EntryId } as const;
    expect(jarName(jar(7, { name: '', vesselNumber: null, of: lot, id: 'AV-26-003/57' }))).toBe(
      'AV-26-003/57',
    );
  });
});

describe('what the window kept of the choices', () => {
  const first = choicesAtFirst({ volume: 'metric' });

  it('comes back as it was', () => {
    const chosen = {
      ...first,
      layoutKey: 'let-2x5',
      without: ['stages'],
      content: 'gift',
      blankLines: 3,
    } as const;
    expect(choicesFrom(JSON.parse(JSON.stringify(chosen)), first)).toEqual(chosen);
  });

  it('is as at first where it makes no sense', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (kept) => {
        expect(choicesFrom(kept, first).layoutKey).toMatch(/^[a-z0-9]/);
      }),
    );
    expect(
      choicesFrom({ layoutKey: '<b>', without: ['caution', 'nonsense'], blankLines: 99 }, first),
    ).toEqual({
      ...first,
      without: ['caution'],
    });
  });

  it('begins with the paper of the house', () => {
    expect(choicesAtFirst({ volume: 'us' }).layoutKey).toBe('let-3x10');
  });
});

describe('stepping among the places of a sheet', () => {
  const places: LabelPreview['places'] = placesOf(layout('a4-3x7'), 'across');

  it('goes by where they lie on the paper', () => {
    expect(
      ['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowUp'].map((key) => stepAmongPlaces(key, 5, places)),
    ).toEqual([6, 8, 4, 2]);
    expect(stepAmongPlaces('ArrowLeft', 1, places)).toBeNull();
    expect(stepAmongPlaces('End', 1, places)).toBe(21);
    expect(stepAmongPlaces('Home', 9, places)).toBe(1);
    expect(stepAmongPlaces('x', 9, places)).toBeNull();
  });

  it('goes by the paper also where they are counted down the columns', () => {
    const down = placesOf(layout('a4-3x7'), 'down');
    expect(stepAmongPlaces('ArrowRight', 1, down)).toBe(8);
    expect(stepAmongPlaces('ArrowDown', 1, down)).toBe(2);
  });
});

describe('the code as a path', () => {
  it('draws each run of dark modules once', () => {
    const path = codePath({ text: 'x', xMm: 1, yMm: 2, moduleMm: 0.5, rows: ['1101', '0000', '0111'] });
    expect(path).toBe('M1 2h1v0.5h-1zM2.5 2h0.5v0.5h-0.5zM1.5 3h1.5v0.5h-1.5z');
  });
});

describe('words of the desk', () => {
  it('names layouts by their sizes, the keeper’s own by its name first', () => {
    expect(sayLayout(layout('a4-3x7'))).toBe('A4, 3 × 7, 63.5 × 38.1\u00A0mm');
    expect(sayLayout(layout('let-3x10'))).toBe('US Letter, 3 × 10, 2 5/8 × 1\u00A0in');
    expect(sayLayout({ ...layout('a4-round50'), name: 'Lids' })).toBe('Lids: A4, 3 × 5, ⌀ 50\u00A0mm, round');
  });

  it('has a sentence for every note', () => {
    expect(sayLabelNote({ type: 'leftOff', parts: ['stages', 'code'] })).toBe(
      'Not on this size: stages, square code.',
    );
    expect(sayLabelNote({ type: 'willNotPrint', count: 2, characters: ['日', '本'] })).toMatch(
      /^2 characters will not print/,
    );
    expect(sayLabelNote({ type: 'doesNotFit', parts: ['caution'] })).toMatch(/Choose a larger size/);
    expect(sayLabelNote({ type: 'madeSmaller', part: 'name', sizePt: 9 })).toContain('9 pt');
  });

  it('says which labels have no room, a few of many by name', () => {
    expect(sayDoNotFit(['V-1'])).toMatch(/of V-1\. .*take it out/);
    expect(sayDoNotFit(['1', '2', '3', '4', '5', '6', '7', '8'])).toMatch(/and 2 more/);
  });

  it('says where the next sheet begins', () => {
    const sheet = {
      shape: 'rectangle',
      paper: 'a4',
      pageWidthMm: 210,
      pageHeightMm: 297,
      columns: 3,
      rows: 7,
    } as const;
    const used = { layoutKey: 'a4-3x7', sheet, atMs: Date.UTC(2026, 10, 25, 12) };
    const cells = [1, 2, 3].map((column) => ({ row: 1, column }));
    expect(sayUsed({ ...used, taken: cells }, 'across')).toMatch(/^Places 1 to 3 were used on /u);
    expect(sayUsed({ ...used, taken: cells }, 'down')).toMatch(/^Places 1, 8 and 15 were used on /u);
    expect(sayUsed({ ...used, taken: cells.slice(0, 1) }, 'down')).toMatch(/^Place 1 was used on /u);
    expect(sayPrinted({ labels: 12, usedUpTo: 16, next: 17, places: 21 })).toMatch(/begins at place 17\.$/);
    expect(sayPrinted({ labels: 21, usedUpTo: 21, next: 1, places: 21 })).toMatch(/begins at place 1\.$/);
    expect(sayPrinted({ labels: 1, usedUpTo: 1, next: 1, places: 1 })).toBe(
      '1 label handed to the print sheet.',
    );
  });
});

describe('bytes from base64', () => {
  it('come out as they went in', () => {
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect([...bytesOf(Buffer.from(bytes).toString('base64'))]).toEqual([...bytes]);
      }),
    );
  });
});
