import { getTableColumns, getTableName } from 'drizzle-orm';
import { afterAll, describe, expect, it } from 'vitest';
import { join } from 'node:path';
import { openCellar } from '#main/cellar/open-cellar.ts';
import * as tables from '#main/ledger/ledger.tables.ts';
import { scratchFolder } from '../desk-for-tests.ts';

const scratch = scratchFolder();
const cellar = openCellar(join(scratch.folder, 'tables.undercroft'));
afterAll(() => {
  cellar.close();
  scratch.remove();
});

describe('tables as the code knows them', () => {
  const { RECORD_TABLES, entryTable, entrySubjectTable, entryImageTable } = tables;
  const all = [...Object.values(RECORD_TABLES), entryTable, entrySubjectTable, entryImageTable];

  it.each(all.map((table) => [getTableName(table), table] as const))(
    '%s has the columns of the file',
    (name, table) => {
      const inFile = cellar.sqlite.pragma(`table_info("${name}")`) as {
        name: string;
        type: string;
        notnull: number;
        pk: number;
      }[];
      const inCode = Object.values(
        getTableColumns(table) as Record<string, { name: string; notNull: boolean; getSQLType(): string }>,
      );
      expect(inCode.map((c) => c.name)).toEqual(inFile.map((c) => c.name));
      expect(inCode.map((c) => c.getSQLType().toUpperCase())).toEqual(inFile.map((c) => c.type));
      for (const column of inFile.filter((c) => c.pk === 0)) {
        expect([column.name, inCode.find((c) => c.name === column.name)?.notNull]).toEqual([
          column.name,
          column.notnull === 1,
        ]);
      }
    },
  );
});
