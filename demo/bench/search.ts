import { createRouterClient } from '@orpc/server';
import type { Database } from 'better-sqlite3';
import { tmpdir } from 'node:os';
import { ALL_BATCHES } from '#core/ledger/batch-filter.ts';
import { compose } from '../../src-main/compose.ts';
import { likeAnywhere } from '../../src-main/find/fold-for-search.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { loadFile } from './load-files.ts';
import { MANY } from './opening.ts';
import { ms, times, type BenchLine } from './report.ts';
import { sideBySide } from './side-by-side.ts';

const GOAL_MS = 50;
const VESSELS = 200;

/** What a keeper may look for: a word of very many lines, one of some, a name inside words, two words, and nothing. */
const ASKED = [
  ['a word of very many lines', 'cider'],
  ['a word inside words', 'lderberr'],
  ['two words', 'damson wine'],
  ['a word that is nowhere', 'zymurgical'],
] as const;

/** The search of the field above every place, through the whole service, beside a scan of the same words by LIKE. */
export function searching(rounds: number): Promise<BenchLine[]> {
  return searchIn(loadFile(VESSELS, MANY), rounds);
}

export async function searchIn(cellar: string, rounds: number): Promise<BenchLine[]> {
  const undercroft = compose({ cellar, dataFolder: tmpdir(), clock: () => SAMPLE_NOW_MS });
  try {
    const client = createRouterClient(undercroft.router);
    const { sqlite } = undercroft.desk.services.session.cellar;
    const scan = openScan(sqlite);
    const withWords = sqlite.prepare('SELECT COUNT(*) FROM line_words_content').pluck().get() as number;
    const lines: BenchLine[] = [];
    for (const [what, text] of ASKED) {
      const [found = NaN, scanned = NaN] = await sideBySide(
        [() => client.find.everywhere({ text, limit: 8 }), () => scan(text)],
        { rounds, warmUp: 2 },
      );
      lines.push({
        what: `search: ${what}`,
        ...{ measured: ms(found), beside: `${ms(scanned)} by LIKE over ${withWords} texts` },
        ...{ ratio: times(found / scanned), goal: `<= ${GOAL_MS} ms`, met: found <= GOAL_MS },
      });
    }
    lines.push(await filtering(client, rounds));
    return lines;
  } finally {
    undercroft.close();
  }
}

type Client = ReturnType<
  typeof createRouterClient<ReturnType<typeof compose>['router'], Record<never, never>>
>;

/** The ledger of batches filtered by words: every batch that has them must be counted, not only the newest few. */
async function filtering(client: Client, rounds: number): Promise<BenchLine> {
  const page = (text: string) => () => client.book.batches({ ...ALL_BATCHES, text, offset: 0, limit: 50 });
  const words = ['lderberr', 'damson wine'] as const;
  let turn = 0;
  // Asked in turns, so that no answer is one kept from the question before.
  const [filtered = NaN, all = NaN] = await sideBySide(
    [() => page(words[(turn += 1) % 2] ?? words[0])(), page('')],
    { rounds, warmUp: 2 },
  );
  return {
    what: '  the ledger of batches filtered by words',
    ...{ measured: ms(filtered), beside: `${ms(all)} unfiltered`, ratio: times(filtered / all) },
    ...{ goal: '', met: null },
  };
}

/** The same words in the same texts, without the index: the plain table behind it, newest first. */
function openScan(sqlite: Database): (text: string) => unknown {
  const scan = sqlite.prepare(
    `SELECT id FROM line_words_content WHERE c0 LIKE ? ESCAPE '\\' ORDER BY id DESC LIMIT 8`,
  );
  return (text) => scan.all(likeAnywhere(text));
}
