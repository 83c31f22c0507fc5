import { z } from 'zod';
import { BookDocument, BOOK_FORMAT, type BookManifest } from '#core/contract/book-document.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { tableNameOf } from '#core/exchange/tables.ts';
import { getTableName } from 'drizzle-orm';
import { aboutCellar } from '../cellar/about-cellar.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import { ACT_FORMAT } from '../ledger/book-store.ts';
import { openEntryGroups } from '../ledger/entry-groups.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';

const PAGE = 400;

/** The whole book as the pieces of one JSON document, one line of the book a line of text. */
export function* bookPieces(
  services: CellarServices,
): Generator<{ readonly text: string; readonly lines: number }> {
  const { book, cellar } = services.session;
  const groups = openEntryGroups(cellar.sqlite, book);
  const head = JSON.stringify({ manifest: manifestOf(services), houseRules: services.houseRules.read() });
  yield { text: `${head.slice(0, -1)},"entries":[\n`, lines: 0 };
  let after = 0;
  for (let page = book.page(after, PAGE); page.length > 0; page = book.page(after, PAGE)) {
    const requests = groups.requestsOf(after, PAGE);
    const lines = page.map(({ sequence, id, happenedAtMs, writtenAtMs, actFormat, act, postings, typed }) =>
      JSON.stringify({
        ...{ sequence, entryId: id, requestId: requests.get(sequence), happenedAtMs, writtenAtMs },
        ...{ actFormat, act, postings, typed },
      }),
    );
    yield { text: `${after === 0 ? '' : ',\n'}${lines.join(',\n')}`, lines: lines.length };
    after = page.at(-1)?.sequence ?? after;
  }
  yield { text: '\n]}\n', lines: 0 };
}

function manifestOf(services: CellarServices): BookManifest {
  const about = aboutCellar(services);
  const { sqlite } = services.session.cellar;
  const counts = RECORD_KINDS.map((kind) => {
    const rows = sqlite
      .prepare(`SELECT COUNT(*) FROM "${getTableName(RECORD_TABLES[kind])}"`)
      .pluck()
      .get();
    return [tableNameOf(kind), rows as number] as const;
  });
  return {
    ...{ format: BOOK_FORMAT, formatVersion: 1, actFormat: ACT_FORMAT },
    ...{ programVersion: about.programVersion, fileVersion: about.fileVersion },
    ...{ cellarName: about.name, takenOutAt: new Date(about.nowMs).toISOString() },
    counts: { entries: about.entryCount, ...Object.fromEntries(counts) },
  };
}

/** The form of the document as JSON Schema (draft 2020-12), for any program that wants to read it. */
export function bookSchemaText(): string {
  const schema = z.toJSONSchema(BookDocument, { io: 'input', unrepresentable: 'any', reused: 'ref' });
  return `${JSON.stringify(schema, null, 1)}\n`;
}
