import type {
  Calibration,
  LabelJar,
  LabelOrder,
  LabelPreview,
  Labelled,
  MadePdf,
  PdfStep,
} from '#core/contract/labels.ts';
import { correctionFor } from '#core/labels/calibration.ts';
import type { LabelDrawing } from '#core/labels/drawing.ts';
import { placesOf, runOfSheets } from '#core/labels/placing.ts';
import type { LabelLayout } from '#core/labels/layout.ts';
import { testSheet, type SheetMark } from '#core/labels/test-sheet.ts';
import type { CellarSession } from '../cellar/session.ts';
import type { HouseRulesService } from '../house-rules/house-rules-service.ts';
import type { VerdictSource } from '../safety/verdict-source.ts';
import type { LiquidStory } from '../shelves/liquid-story.ts';
import type { ShelvesProjection } from '../shelves/shelves-projection.ts';
import { openJarsQuery } from './jars-query.ts';
import { openLabelDesk, type LabelDeskSettings } from './label-desk.ts';
import { openLabelDeskStore } from './label-desk-store.ts';
import { openLabelFacts } from './label-facts-query.ts';
import { labelQr } from './label-qr.ts';
import { rememberCodes, runOrder, type JarLabels, type RunDeps } from './label-run.ts';
import { makePdf } from './make-pdf.ts';
import { openPdf, type PdfSheet } from './pdf-sheet.ts';
import { openTypesetter } from './typesetter.ts';

export interface LabelsService {
  readonly desk: LabelDeskSettings;
  jars(asked: {
    readonly text: string;
    readonly of: readonly Labelled[] | null;
    readonly kinds: readonly Labelled['kind'][];
    readonly limit: number;
  }): LabelJar[];
  /** Null when there is no such layout; so below. */
  preview(order: LabelOrder, fromPage: number, pages: number): LabelPreview | null;
  pdf(
    order: LabelOrder,
    path: string | null,
    signal: AbortSignal | undefined,
  ): AsyncGenerator<PdfStep, MadePdf, void> | null;
  testSheet(asked: TestSheetAsked): Promise<File> | null;
  testSheetDrawn(asked: TestSheetAsked): DrawnTestSheet | null;
}

interface TestSheetAsked {
  readonly layoutKey: string;
  readonly printer: string | null;
  readonly corrected: boolean;
}

interface DrawnTestSheet {
  readonly layout: LabelLayout;
  /** What counts for it; null draws it as measured. */
  readonly calibration: Calibration | null;
  readonly marks: readonly SheetMark[];
}

export interface LabelsParts {
  readonly session: CellarSession;
  readonly shelves: ShelvesProjection;
  readonly story: LiquidStory;
  readonly verdicts: VerdictSource;
  readonly houseRules: HouseRulesService;
}

export function openLabels({ session, shelves, story, verdicts, houseRules }: LabelsParts): LabelsService {
  const { sqlite } = session.cellar;
  const query = openJarsQuery(sqlite);
  const desk = openLabelDesk(
    openLabelDeskStore(sqlite, session.cellar.refuseWriting),
    session.clock,
    session.newId,
  );
  const facts = openLabelFacts(sqlite, session.records, shelves, story, verdicts);
  const tools = { type: openTypesetter(), makeCode: rememberCodes(labelQr) };
  const deps = (): RunDeps => ({ facts, tools, rules: houseRules.read(), nowMs: session.clock() });
  const drawTestSheet = ({ layoutKey, printer, corrected }: TestSheetAsked): DrawnTestSheet | null => {
    const layout = desk.layout(layoutKey);
    if (layout === null) return null;
    const note = `${printer ?? ''} Hold this against a sheet of labels, towards the light. Measure the rulers and the crosses.`;
    const marks = testSheet(layout, { title: testSheetTitle(layout), note: note.trim() }, tools.type);
    return { layout, marks, calibration: corrected ? desk.calibration(printer, layout) : null };
  };
  return {
    desk,
    jars: ({ text, of, kinds, limit }) =>
      of === null
        ? query.search(text, kinds, limit)
        : of.flatMap((one) => query.one(one) ?? []).slice(0, limit),
    preview(order, fromPage, pages) {
      const layout = desk.layout(order.layoutKey);
      if (layout === null) return null;
      const run = [...runOrder(order, layout, deps())];
      const there = run.flatMap((jar) => jar ?? []);
      const labels = there.reduce((sum, { copies }) => sum + copies, 0);
      const places = placesOf(layout, order.filled);
      const sheets = runOfSheets(layout, order);
      const drawings: LabelDrawing[] = [];
      const numberOf = new Map<LabelDrawing, number>();
      const placed: LabelPreview['placed'] = [];
      let next = 0;
      for (const { jar, copies, composed } of there) {
        for (let copy = 0; copy < copies; copy += 1) {
          const nth = next;
          next += 1;
          const { page, place } = sheets.at(nth);
          const at = places[place - 1];
          const drawing = (composed[copy] ?? composed[0])?.drawing;
          if (page < fromPage || page >= fromPage + pages || at === undefined || drawing === undefined)
            continue;
          const number = numberOf.get(drawing) ?? drawings.push(drawing) - 1;
          numberOf.set(drawing, number);
          placed.push({ ...at, page, nth, jar, copy, drawing: number });
        }
      }
      return {
        ...{ layout, places, placed, labels, drawings, ...sheets.sheetsFor(labels) },
        told: there.map(told),
        gone: run.flatMap((jar, index) => (jar === null ? [index] : [])),
        calibration: desk.calibration(order.printer, layout),
      };
    },
    pdf(order, path, signal) {
      const layout = desk.layout(order.layoutKey);
      if (layout === null) return null;
      const calibration = desk.calibration(order.printer, layout);
      return makePdf(session, order, layout, calibration, deps(), path, signal);
    },
    testSheet(asked) {
      const sheet = drawTestSheet(asked);
      if (sheet === null) return null;
      const { layout, calibration, marks } = sheet;
      const pieces: Buffer[] = [];
      const title = testSheetTitle(layout);
      const pdf = openPdf(title, session.clock(), (piece) => pieces.push(piece));
      pdf.page({ widthMm: layout.pageWidthMm, heightMm: layout.pageHeightMm }, correctionFor(calibration));
      for (const { drawing, ...at } of marks) pdf.draw(drawing, at);
      return gathered(pdf, pieces, `${title}.pdf`);
    },
    testSheetDrawn: drawTestSheet,
  };
}

function testSheetTitle({ name, key }: LabelLayout): string {
  return `Test sheet ${name === '' ? key : name}`;
}

async function gathered(pdf: PdfSheet, pieces: readonly Buffer[], name: string): Promise<File> {
  await pdf.end();
  return new File([new Uint8Array(Buffer.concat(pieces))], name, { type: 'application/pdf' });
}

function told({ jar, id, name, cautions, composed }: JarLabels): LabelPreview['told'][number] {
  const [first] = composed;
  // Copies that differ by their number alone are told of once.
  const notes = new Map(composed.flatMap(({ notes }) => notes).map((note) => [JSON.stringify(note), note]));
  return {
    ...{ jar, id, name, cautions: [...cautions], notes: [...notes.values()], code: first?.code ?? null },
    smallestPt: Math.min(...composed.map(({ smallestPt }) => smallestPt)),
  };
}
