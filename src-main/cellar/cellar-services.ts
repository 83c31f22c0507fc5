import { openBatchesQuery } from '../cellar-book/batches-query.ts';
import { openEntriesQuery } from '../cellar-book/entries-query.ts';
import { openFiltersQuery } from '../cellar-book/filters-query.ts';
import { openHappenedQuery } from '../cellar-book/happened-query.ts';
import { openLeafQuery } from '../cellar-book/leaf-query.ts';
import { openCulturesQuery } from '../cultures/cultures-query.ts';
import { openFindQuery } from '../find/find-query.ts';
import { openWordsProjection } from '../find/words-projection.ts';
import { openPedigreeQuery } from '../pedigree/pedigree-query.ts';
import { openHouseRules } from '../house-rules/house-rules-service.ts';
import { openEntryRows } from '../ledger/entry-rows.ts';
import { openLedgerService } from '../ledger/ledger-service.ts';
import { openLabels } from '../labels/labels-service.ts';
import { openPhotos } from '../photos/photos-service.ts';
import { openBooksOfVessels } from '../shelves/book-of-vessel.ts';
import { openLiquidStory } from '../shelves/liquid-story.ts';
import { openShelvesProjection } from '../shelves/shelves-projection.ts';
import { openShelvesQuery } from '../shelves/shelves-query.ts';
import { openVesselDetails } from '../shelves/vessel-detail.ts';
import { openVerdicts } from '../safety/verdict-source.ts';
import { openStandingTold } from '../shelves/standing-told.ts';
import { bringProjectionsUpToDate } from './rebuild-projections.ts';
import { openTastingsQuery } from '../tastings/tastings-query.ts';
import type { CellarSession } from './session.ts';

export type CellarServices = ReturnType<typeof openServices>;

/** Every service of one open cellar. */
export function openServices(session: CellarSession) {
  const { sqlite } = session.cellar;
  const { records, book } = session;
  bringProjectionsUpToDate(session);
  const projection = openShelvesProjection(sqlite, records);
  projection.bringUpToDate();
  openWordsProjection(sqlite).bringUpToDate(book);
  const story = openLiquidStory(sqlite, records);
  const verdicts = openVerdicts(records, story, openStandingTold(sqlite));
  const batches = openBatchesQuery(sqlite, records, book);
  const ledger = openLedgerService(session);
  const houseRules = openHouseRules(sqlite, session.cellar.refuseWriting);
  const rows = openEntryRows(sqlite, records, book);
  return {
    session,
    houseRules,
    ledger,
    photos: openPhotos(session, ledger),
    labels: openLabels({ session, shelves: projection, story, verdicts, houseRules }),
    tastings: openTastingsQuery(sqlite),
    shelves: openShelvesQuery(sqlite),
    vessels: openVesselDetails(sqlite, records, projection, story, verdicts),
    batches,
    filters: openFiltersQuery(sqlite),
    leaf: openLeafQuery(sqlite, records, projection, story, verdicts, book),
    entries: openEntriesQuery(sqlite, book, rows),
    happened: openHappenedQuery(sqlite, book, rows),
    cultures: openCulturesQuery(sqlite, records),
    pedigree: openPedigreeQuery(sqlite, records),
    bookOfVessel: openBooksOfVessels(records, projection, story),
    find: openFindQuery(sqlite, book, batches),
    projection,
  };
}
