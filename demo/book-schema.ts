import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { bookSchemaText } from '../src-main/exchange/book-document.ts';

/** Writes the form of the whole book down where it is published: `node demo/book-schema.ts`. A test asks for it. */
const file = resolve(import.meta.dirname, '../src-core/contract/book.schema.json');
const written = await format(bookSchemaText(), { ...(await resolveConfig(file)), filepath: file });
writeFileSync(file, written);
process.stdout.write('Written: src-core/contract/book.schema.json\n');
