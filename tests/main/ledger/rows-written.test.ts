import { describe, expect, it } from 'vitest';
import type { Change } from '#core/ledger/records.ts';
import { openShelvesProjection } from '#main/shelves/shelves-projection.ts';
import { begun, deskForEach, LITRE, type TestDesk } from '../desk-for-tests.ts';

let desk: TestDesk;
deskForEach('rows', (opened) => {
  desk = opened;
});

describe('a record that changes', () => {
  it('is written in the fields that differ, and reads back whole', async () => {
    const { vesselId } = await begun(desk);
    const { records } = desk.app.desk.services.session;
    const before = records.get('fill', vesselId);
    if (before === null) throw new Error('a filled vessel');
    const after = { ...before, volumeUl: LITRE, origins: { ...before.origins, [vesselId]: 7 }, onLees: true };
    records.apply([{ kind: 'fill', id: vesselId, before, after }]);
    expect(records.get('fill', vesselId)).toEqual(after);
    records.apply([{ kind: 'fill', id: vesselId, before: after, after: before }]);
    expect(records.get('fill', vesselId)).toEqual(before);
  });

  it('and is not there is a fault, not a silence', async () => {
    const { vesselId } = await begun(desk);
    const { records, cellar } = desk.app.desk.services.session;
    const before = records.get('fill', vesselId);
    cellar.sqlite.exec('DELETE FROM fill');
    const after = { ...before, volumeUl: LITRE };
    expect(() => {
      records.apply([{ kind: 'fill', id: vesselId, before, after } as Change]);
    }).toThrow('no row of fill');
  });

  it('leaves the ticket alone when its vessel shows nothing else, and writes it when it does', async () => {
    const { vesselId } = await begun(desk);
    const { cellar, records } = desk.app.desk.services.session;
    const written = (): unknown => cellar.sqlite.prepare('SELECT total_changes()').pluck().get();
    const shelves = openShelvesProjection(cellar.sqlite, records);
    const before = written();
    shelves.refresh(vesselId);
    expect(written()).toBe(before);
    const { rows } = await desk.post({ kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' });
    const shown = cellar.sqlite.prepare('SELECT shown FROM shelf_row').pluck().get();
    expect(JSON.parse(String(shown))).toEqual(rows[0]);
    expect(rows[0]).toMatchObject({ volumeUl: 3 * LITRE });
  });
});
