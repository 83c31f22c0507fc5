import { ORPCError } from '@orpc/client';
import { isContractProcedure, type AnyContractProcedure } from '@orpc/contract';
import fc from 'fast-check';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contract } from '#core/contract/index.ts';
import { begun, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let vesselId: string;
beforeAll(async () => {
  desk = openDeskOn(join(scratch.folder, 'hostile.undercroft'));
  vesselId = (await begun(desk)).vesselId;
});
afterAll(() => {
  desk.close();
  scratch.remove();
});

type Call = (input: unknown) => Promise<unknown>;
const METHODS: [string, AnyContractProcedure][] = Object.entries(contract).flatMap(([place, methods]) =>
  Object.entries(methods as Record<string, unknown>).flatMap(
    ([name, method]): [string, AnyContractProcedure][] =>
      isContractProcedure(method) ? [[`${place}.${name}`, method]] : [],
  ),
);
const callOf = (path: string): Call => {
  const [place = '', name = ''] = path.split('.');
  return (desk.client as unknown as Record<string, Record<string, Call>>)[place]?.[name] as Call;
};
const entryCount = (): number => desk.app.desk.services.session.book.count();

/** An answer, or an error with a type: anything else is a fault of ours. */
async function civil(call: Promise<unknown>): Promise<void> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ORPCError && (error.defined || error.status < 500)) return;
    throw error;
  }
}

const nasty = fc.oneof(
  fc.constantFrom<unknown>(
    ...[
      null,
      undefined,
      true,
      0,
      -1,
      1e308,
      NaN,
      Infinity,
      '',
      ' ',
      '\u0000',
      '‮',
      '💥'.repeat(50),
      'x'.repeat(50_000),
    ],
    ...[
      "'; DROP TABLE entry; --",
      '../../etc/passwd',
      '__proto__',
      '<img src=x onerror=alert(1)>',
      '=1+1',
      '%',
      '\\',
    ],
    ...[
      [],
      {},
      [[[[]]]],
      JSON.parse('{"__proto__":{"polluted":true}}'),
      { constructor: { prototype: { polluted: true } } },
    ],
  ),
  fc.anything({ maxDepth: 3 }),
);

describe('every method', () => {
  it.each(METHODS.filter(([, m]) => m['~orpc'].inputSchema !== undefined).map(([path]) => path))(
    '%s answers hostile input civilly and writes nothing',
    async (path) => {
      const before = entryCount();
      await fc.assert(
        fc.asyncProperty(nasty, (input) => civil(callOf(path)(input))),
        { numRuns: 60 },
      );
      expect(entryCount()).toBe(before);
      expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
    },
  );

  it('ledger.post with one field of a good act spoiled is refused by that field, and nothing is written', async () => {
    const good: Record<string, unknown> = { kind: 'drawOff', vesselId, volumeUl: 1000, purpose: 'taste' };
    const before = entryCount();
    await fc.assert(
      fc.asyncProperty(fc.constantFrom('kind', 'vesselId', 'volumeUl'), nasty, async (field, value) => {
        if (field === 'volumeUl' && Number.isInteger(value) && (value as number) > 0) return;
        const act = { ...good, [field]: value };
        const requestId = '01890000-0000-7000-8000-000000000001';
        await civil(callOf('ledger.post')({ requestId, act, happenedAtMs: null, typed: {} }));
      }),
      { numRuns: 300 },
    );
    expect(entryCount()).toBe(before);
  });

  it.each(['__proto__', 'constructor', 'toString'])(
    'a due group called %s is a group with nothing in it',
    async (key) => {
      const request = { grouping: 'due', key, today: { startMs: 0, endMs: 1 }, offset: 0, limit: 10 };
      expect(await callOf('shelves.page')(request)).toMatchObject({ rows: [] });
    },
  );

  it('a zero byte in what is looked for finds what stands around it', async () => {
    await desk.post({
      kind: 'note',
      about: { kind: 'vessel', vesselId: vesselId as never },
      text: 'zero bytes',
    });
    const found = await desk.client.find.everywhere({ text: 'zero\0 by', limit: 5 });
    expect(found.days.map((n) => n.text)).toEqual(['zero bytes']);
  });

  it('says which field was wrong', async () => {
    const act = { kind: 'drawOff', vesselId, volumeUl: 1.5, purpose: '' };
    const requestId = '01890000-0000-7000-8000-000000000002';
    await expect(
      callOf('ledger.post')({ requestId, act, happenedAtMs: null, typed: {} }),
    ).rejects.toMatchObject({
      ...{ code: 'BAD_REQUEST', data: { issues: [{ path: ['act', 'volumeUl'] }] } },
    });
  });

  it('text that looks like SQL, markup or a formula is kept as text and found again', async () => {
    const text = `Robert'); DROP TABLE entry; -- <script>alert(1)</script> =cmd "quoted" 100% _under\\score`;
    await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId: vesselId as never }, text });
    for (const part of ["'); DROP", '<script>', '"quoted"', '100% _u', 'r\\s']) {
      const found = await desk.client.find.everywhere({ text: part, limit: 5 });
      expect(found.days.map((n) => n.text)).toEqual([text]);
    }
  });
});
