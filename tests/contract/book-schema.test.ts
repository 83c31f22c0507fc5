import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { expect, it } from 'vitest';
import { bookSchemaText } from '#main/exchange/book-document.ts';

it('the form of the whole book is published as it is; `vitest … tests/contract -u` writes it anew', async () => {
  const file = join(import.meta.dirname, '../../src-core/contract/book.schema.json');
  const written = await format(bookSchemaText(), { ...(await resolveConfig(file)), filepath: file });
  await expect(written).toMatchFileSnapshot(file);
});
