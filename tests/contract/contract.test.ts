import { isContractProcedure } from '@orpc/contract';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { BatchRow, Kin, Leaf, SavedFilter, StageSpan } from '#core/contract/book.ts';
import { Outgoing } from '#core/contract/exchange.ts';
import { FoundDay, FoundLabel } from '#core/contract/find.ts';
import { KeptFilter } from '#core/ledger/batch-filter.ts';
import { AboutCellar, CheckReport, FileRefusal, Progress } from '#core/contract/cellar.ts';
import { CultureLines, CultureRow, Pull } from '#core/contract/cultures.ts';
import { HouseRules } from '#core/contract/house-rules.ts';
import { contract } from '#core/contract/index.ts';
import {
  Calibration,
  LabelDesk,
  LabelJar,
  LabelOrder,
  LabelPreview,
  Labelled,
  PlacedLabel,
} from '#core/contract/labels.ts';
import { EntryRow, Plan, Posted, UndoState } from '#core/contract/ledger.ts';
import {
  DueCheck,
  Foresight,
  Headline,
  OriginShare,
  Place,
  ReadingRow,
  ShelfOverview,
  ShelfRow,
  VesselDetail,
} from '#core/contract/shelves.ts';
import { Finding, Verdict } from '#core/contract/verdict.ts';
import { Settled } from '#core/exchange/settled.ts';
import { Act, ActDraft, FactOfTheCellar, ReadingValues } from '#core/ledger/act.ts';
import { LedgerError, PlainLedgerError } from '#core/ledger/ledger-error.ts';
import { CodeSquare, Figure, LabelDrawing, Rule, TextRun } from '#core/labels/drawing.ts';
import { LabelNote, LabelPart } from '#core/labels/label-part.ts';
import { LabelLayout, OwnLayout } from '#core/labels/layout.ts';
import { MassDeltas, Masses } from '#core/ledger/masses.ts';
import { ToldFacts } from '#core/ledger/told-facts.ts';

/** Shapes that several methods share, so that each stands once in the snapshot. */
const SHARED = {
  ...{
    AboutCellar,
    CheckReport,
    FileRefusal,
    Progress,
    HouseRules,
    Act,
    Calibration,
    LabelDesk,
    LabelJar,
    LabelOrder,
    LabelPreview,
    Labelled,
    PlacedLabel,
    CodeSquare,
    Figure,
    LabelDrawing,
    Rule,
    TextRun,
    LabelNote,
    LabelPart,
    LabelLayout,
    OwnLayout,
    FactOfTheCellar,
    Masses,
    MassDeltas,
    ActDraft,
    ReadingValues,
    LedgerError,
    PlainLedgerError,
    ToldFacts,
    EntryRow,
  },
  ...{
    Plan,
    Posted,
    UndoState,
    DueCheck,
    Foresight,
    Headline,
    OriginShare,
    Place,
    ReadingRow,
    ShelfOverview,
    ShelfRow,
  },
  ...{ VesselDetail, Finding, Verdict, BatchRow, Kin, Leaf, StageSpan, CultureLines, CultureRow, Pull },
  ...{ FoundDay, FoundLabel, KeptFilter, SavedFilter, Settled, Outgoing },
};

describe('the contract', () => {
  it('is the one under review: a change of any method shows in the snapshot', async () => {
    const named = z.registry<{ id: string }>();
    const shapes = new Map<z.ZodType, string>(Object.entries(SHARED).map(([id, schema]) => [schema, id]));
    // Each act is told once: drafts and corrections are mostly the same ones.
    for (const act of Act.options) shapes.set(act, `act ${[...act.shape.kind.values].join()}`);
    const nameOf = (schema: unknown, otherwise: string): string => {
      if (schema === undefined) return 'nothing';
      if (!(schema instanceof z.ZodType)) return 'a stream';
      const known = shapes.get(schema) ?? otherwise;
      shapes.set(schema, known);
      return known;
    };
    const methods = Object.fromEntries(
      Object.entries(contract).flatMap(([place, all]) =>
        Object.entries(all).flatMap(([name, method]: [string, unknown]) => {
          if (!isContractProcedure(method)) return [];
          const { inputSchema, outputSchema, errorMap } = method['~orpc'] as {
            readonly inputSchema?: unknown;
            readonly outputSchema?: unknown;
            readonly errorMap: Readonly<Record<string, unknown>>;
          };
          const path = `${place}.${name}`;
          const errors = Object.fromEntries(
            Object.entries(errorMap).map(([code, error]) => [
              code,
              nameOf((error as { data?: unknown }).data, code),
            ]),
          );
          return [
            [
              path,
              {
                input: nameOf(inputSchema, `${path} input`),
                output: nameOf(outputSchema, `${path} output`),
                errors,
              },
            ],
          ];
        }),
      ),
    );
    for (const [schema, id] of shapes) named.add(schema, { id });
    const { schemas } = z.toJSONSchema(named, { unrepresentable: 'any', io: 'input' });
    const text = `${JSON.stringify({ methods, schemas }, null, 1)}\n`;
    expect(text.length).toBeLessThan(400_000);
    await expect(text).toMatchFileSnapshot(join(import.meta.dirname, 'contract.snapshot'));
  });
});
