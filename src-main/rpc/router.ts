import { implement, ORPCError } from '@orpc/server';
import { contract } from '#core/contract/index.ts';
import type { FileRefusal } from '#core/contract/cellar.ts';
import type { PedigreeRoot } from '#core/contract/pedigree.ts';
import { aboutCellar, beginCellar, renameCellar } from '../cellar/about-cellar.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { checkCellar } from '../cellar/check-cellar.ts';
import { FileRefused } from '../cellar/file-refused.ts';
import { saveCopy } from '../cellar/save-copy.ts';
import { labelHandlers } from '../labels/label-handlers.ts';
import { readPictures } from '../photos/read-pictures.ts';
import { bringIn, intakesIn, NotSettled } from '../exchange/bring-in.ts';
import { lookOver } from '../exchange/look-over.ts';
import { tableSources } from '../exchange/table-source.ts';
import { takeOut, TakeOutRefused } from '../exchange/take-out.ts';
import { notWritten, written } from '../ledger/written.ts';
import { BackupRefused } from '../strongbox/backup-refused.ts';
import { strongboxHandlers } from '../strongbox/strongbox-handlers.ts';
import type { Strongbox } from '../strongbox/strongbox-service.ts';

export type AppRouter = ReturnType<typeof buildRouter>;

/** Answers every method of the contract from the cellar on the desk. Both hosts serve this one router. */
export function buildRouter(desk: CellarDesk, strongbox: Strongbox) {
  // Every method answers a disk that will not take a write with the same typed error, also those that seldom write.
  const os = implement(contract).use(async ({ next }) => {
    try {
      return await next();
    } catch (error) {
      const data = notWritten(error);
      throw data === null ? error : new ORPCError('NOT_WRITTEN', { status: 507, data });
    }
  });
  const now = (): number => desk.services.session.clock();
  const about = () => aboutCellar(desk.services, desk.unopened);
  const rules = () => desk.services.houseRules.read();

  return os.router({
    cellar: {
      about: os.cellar.about.handler(about),
      begin: os.cellar.begin.handler(({ input, errors }) => {
        if (!beginCellar(desk.services, input)) throw errors.ALREADY_BEGUN();
        return about();
      }),
      rename: os.cellar.rename.handler(({ input }) => {
        renameCellar(desk.services, input.name);
        return about();
      }),
      open: os.cellar.open.handler(({ input, errors }) => {
        refusingFiles(errors.FILE_REFUSED, () => {
          desk.open(input.file, input.begin);
        });
        return about();
      }),
      openSample: os.cellar.openSample.handler(({ errors }) => {
        refusingFiles(errors.FILE_REFUSED, () => {
          desk.openSample();
        });
        return about();
      }),
      openHome: os.cellar.openHome.handler(({ errors }) => {
        refusingFiles(errors.FILE_REFUSED, () => {
          desk.openHome();
        });
        return about();
      }),
      saveCopy: os.cellar.saveCopy.handler(async function* ({ input, errors, signal }) {
        try {
          return yield* saveCopy(desk.services.session.cellar, input.file, signal);
        } catch (error) {
          throw error instanceof FileRefused ? errors.FILE_REFUSED({ data: error.refusal }) : error;
        }
      }),
      check: os.cellar.check.handler(async function* ({ signal }) {
        const report = yield* checkCellar(desk.services, signal);
        strongbox.noteFullCheck(report);
        return report;
      }),
    },
    houseRules: {
      read: os.houseRules.read.handler(rules),
      settle: os.houseRules.settle.handler(({ input }) => desk.services.houseRules.settle(input)),
    },
    ledger: {
      post: os.ledger.post.handler(({ input, errors }) =>
        written(errors, () => desk.services.ledger.post(input)),
      ),
      plan: os.ledger.plan.handler(({ input, errors }) => {
        const plan = desk.services.ledger.plan(input.act, input.happenedAtMs);
        if (!plan.ok) throw errors.REFUSED({ data: plan.error });
        return plan.value;
      }),
      restate: os.ledger.restate.handler(({ input: { requestId, ...asked }, errors }) =>
        written(errors, () => desk.services.ledger.restate(requestId, asked)),
      ),
      planRestate: os.ledger.planRestate.handler(({ input, errors }) => {
        const plan = desk.services.ledger.planRestate(input);
        if (!plan.ok) throw errors.REFUSED({ data: plan.error });
        return plan.value;
      }),
      entry: os.ledger.entry.handler(({ input, errors }) => {
        const row = desk.services.entries.one(input.entryId);
        if (row === null) throw errors.NOT_FOUND({ data: { what: 'entry', id: input.entryId } });
        return row;
      }),
      undo: os.ledger.undo.handler(({ input, errors }) =>
        written(errors, () => desk.services.ledger.undo(input.requestId)),
      ),
      redo: os.ledger.redo.handler(({ input, errors }) =>
        written(errors, () => desk.services.ledger.redo(input.requestId)),
      ),
      strike: os.ledger.strike.handler(({ input, errors }) =>
        written(errors, () => desk.services.ledger.strike(input.requestId, input.entryId)),
      ),
      undoState: os.ledger.undoState.handler(() => desk.services.ledger.undoState()),
      entries: os.ledger.entries.handler(({ input }) =>
        desk.services.entries.page(input.about, input.beforeSequence, input.limit),
      ),
      happened: os.ledger.happened.handler(({ input }) =>
        desk.services.happened.between(input.boundsMs, input.limit),
      ),
    },
    shelves: {
      overview: os.shelves.overview.handler(({ input }) =>
        desk.services.shelves.overview(input.grouping, input.today, now()),
      ),
      page: os.shelves.page.handler(({ input }) => desk.services.shelves.page(input)),
      vessel: os.shelves.vessel.handler(({ input, errors }) => {
        const detail = desk.services.vessels.of(input.vesselId, rules(), now());
        if (detail === null) throw errors.NOT_FOUND({ data: { what: 'vessel', id: input.vesselId } });
        return detail;
      }),
      bookOf: os.shelves.bookOf.handler(({ input, errors }) => {
        const found = desk.services.bookOfVessel.of(input.vesselId, now());
        if (found === null) throw errors.NOT_FOUND({ data: { what: 'vessel', id: input.vesselId } });
        return found;
      }),
      places: os.shelves.places.handler(() => desk.services.shelves.places()),
      choose: os.shelves.choose.handler(({ input }) => desk.services.shelves.choose(input)),
    },
    book: {
      batches: os.book.batches.handler(({ input }) => desk.services.batches.page(input, now())),
      filters: os.book.filters.handler(() => desk.services.filters.all()),
      leaf: os.book.leaf.handler(({ input, errors }) => {
        const leaf = desk.services.leaf.of(input.batchId, rules(), now());
        if (leaf === null) throw errors.NOT_FOUND({ data: { what: 'batch', id: input.batchId } });
        return leaf;
      }),
    },
    pedigree: {
      trace: os.pedigree.trace.handler(({ input: { of, direction }, errors }) => {
        const pedigree = desk.services.pedigree.trace(of, direction);
        if (pedigree === null) throw errors.NOT_FOUND({ data: { what: of.kind, id: rootId(of) } });
        return pedigree;
      }),
    },
    cultures: {
      list: os.cultures.list.handler(() => desk.services.cultures.list()),
      lines: os.cultures.lines.handler(({ input, errors }) => {
        const lines = desk.services.cultures.lines(input.cultureId);
        if (lines === null) throw errors.NOT_FOUND({ data: { what: 'culture', id: input.cultureId } });
        return lines;
      }),
    },
    find: {
      everywhere: os.find.everywhere.handler(({ input }) =>
        desk.services.find.everywhere(input.text, input.limit),
      ),
      days: os.find.days.handler(({ input }) =>
        desk.services.find.days(input.text, input.beforeSequence, input.limit),
      ),
      label: os.find.label.handler(({ input }) => desk.services.find.label(input.id)),
      vesselAt: os.find.vesselAt.handler(({ input }) => desk.services.find.vesselAt(input.code)),
    },
    tastings: {
      of: os.tastings.of.handler(({ input }) => desk.services.tastings.of(input.batchId)),
    },
    photos: {
      add: os.photos.add.handler(async ({ input, errors }) => {
        const pictures = await readPictures(input);
        if (!pictures.ok) throw errors.PICTURE_REFUSED({ data: pictures.error });
        return written(errors, () => desk.services.photos.add(input, pictures.value));
      }),
      of: os.photos.of.handler(({ input }) => desk.services.photos.of(input.about)),
      thumbnails: os.photos.thumbnails.handler(({ input }) =>
        desk.services.photos.thumbnails(input.checksums),
      ),
      picture: os.photos.picture.handler(({ input, errors }) => {
        const picture = desk.services.photos.picture(input.checksum);
        if (picture === null) throw errors.NOT_FOUND({ data: { what: 'picture', id: input.checksum } });
        return { picture };
      }),
    },
    labels: labelHandlers(desk),
    exchange: {
      tables: os.exchange.tables.handler(() =>
        tableSources(desk.services.session).map((table) => ({ table: table.name, rows: table.count() })),
      ),
      takeOut: os.exchange.takeOut.handler(async function* ({ input, errors, signal }) {
        try {
          return yield* takeOut(desk.services, input.what, input.path, signal);
        } catch (error) {
          if (error instanceof FileRefused) throw errors.FILE_REFUSED({ data: error.refusal });
          if (!(error instanceof TakeOutRefused)) throw error;
          if (error.why === 'changedMeanwhile') throw errors.CHANGED_MEANWHILE();
          if (error.why === 'pathMissing') throw errors.PATH_MISSING();
          throw errors.NOT_FOUND({
            data: { what: 'table', id: 'table' in input.what ? input.what.table : '' },
          });
        }
      }),
      lookOver: os.exchange.lookOver.handler(async function* ({ input, signal }) {
        return (yield* lookOver(desk.services, input, signal)).report;
      }),
      bringIn: os.exchange.bringIn.handler(async function* ({ input, errors, signal }) {
        try {
          // A safety copy first; a request that was answered before is only answered again.
          if (desk.services.session.book.byRequest(input.requestId) === null)
            yield* strongbox.before('beforeImport', signal);
          return yield* bringIn(desk.services, input, signal, (write) => written(errors, write));
        } catch (error) {
          if (error instanceof BackupRefused) {
            const type = error.refusal.type === 'DiskFull' ? 'DiskFull' : 'OtherFault';
            throw errors.NOT_WRITTEN({ data: { type, detail: `NO_SAFETY_COPY ${error.refusal.type}` } });
          }
          throw error instanceof NotSettled ? errors.NOT_SETTLED() : error;
        }
      }),
      intakes: os.exchange.intakes.handler(() => intakesIn(desk.services)),
      takeBack: os.exchange.takeBack.handler(({ input, errors }) => {
        const { ledger } = desk.services;
        return written(errors, () => {
          const struck = ledger.strikeTogether(input.requestId, input.intake);
          if (struck === null) throw errors.NOT_FOUND({ data: { what: 'intake', id: input.intake } });
          return struck;
        });
      }),
    },
    strongbox: strongboxHandlers(desk, strongbox),
  });
}

function refusingFiles(refused: (options: { data: FileRefusal }) => Error, open: () => void): void {
  try {
    open();
  } catch (error) {
    throw error instanceof FileRefused ? refused({ data: error.refusal }) : error;
  }
}

/** The id of what a pedigree was asked of. */
function rootId(of: PedigreeRoot): string {
  switch (of.kind) {
    case 'batch':
      return of.batchId;
    case 'culture':
      return of.cultureId;
    case 'lot':
      return of.lotId;
    case 'vessel':
      return of.vesselId;
  }
}
