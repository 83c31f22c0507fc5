import { openBatchesQuery } from '../cellar-book/batches-query.ts';
import { openEntriesQuery } from '../cellar-book/entries-query.ts';
import { openLeafQuery } from '../cellar-book/leaf-query.ts';
import { openCulturesQuery } from '../cultures/cultures-query.ts';
import { openFindQuery } from '../find/find-query.ts';
import { openHouseRules } from '../house-rules/house-rules-service.ts';
import { openEntryRows } from '../ledger/entry-rows.ts';
import { openLedgerService } from '../ledger/ledger-service.ts';
import { openLiquidStory } from '../shelves/liquid-story.ts';
import { openShelvesProjection } from '../shelves/shelves-projection.ts';
import { openShelvesQuery } from '../shelves/shelves-query.ts';
import { openVesselDetails } from '../shelves/vessel-detail.ts';
import { openVerdicts } from '../safety/verdict-source.ts';
import { openStandingTold } from '../shelves/standing-told.ts';
import type { CellarSession } from './session.ts';

export type CellarServices = ReturnType<typeof openServices>;

/** Every service of one open cellar. */
export function openServices(session: CellarSession) {
  const { sqlite } = session.cellar;
  const { records, book } = session;
  const projection = openShelvesProjection(sqlite, records);
  projection.bringUpToDate();
  const story = openLiquidStory(sqlite, records);
  const verdicts = openVerdicts(records, story, openStandingTold(sqlite));
  const batches = openBatchesQuery(sqlite, records);
  return {
    session,
    houseRules: openHouseRules(sqlite),
    ledger: openLedgerService(session),
    shelves: openShelvesQuery(sqlite),
    vessels: openVesselDetails(sqlite, records, projection, story, verdicts),
    batches,
    leaf: openLeafQuery(sqlite, records, projection, story, verdicts),
    entries: openEntriesQuery(sqlite, book, openEntryRows(sqlite, records, book)),
    cultures: openCulturesQuery(sqlite, records),
    find: openFindQuery(sqlite, batches),
    projection,
  };
}
