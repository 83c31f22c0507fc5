import type { Act } from './act.ts';
import type { RecordKind, RecordsByKind } from './records.ts';

/** What an entry speaks of: the leaves, vessels and cultures under which it is listed. */
export interface Subjects {
  readonly vesselIds: readonly string[];
  readonly batchIds: readonly string[];
  readonly cultureIds: readonly string[];
}

interface Touched {
  readonly kind: RecordKind;
  readonly id: string;
  readonly before: RecordsByKind[RecordKind] | null;
  readonly after: RecordsByKind[RecordKind] | null;
}

/** Collected from the records an entry changed, and from what the act itself names (a note changes no record). */
export function entrySubjects(act: Act, changes: readonly Touched[]): Subjects {
  const vesselIds = new Set<string>();
  const batchIds = new Set<string>();
  const cultureIds = new Set<string>();
  const see = (record: RecordsByKind[RecordKind] | null): void => {
    if (record === null) return;
    if ('vesselId' in record && record.vesselId !== null) vesselIds.add(record.vesselId);
    if ('batchId' in record && record.batchId !== null) batchIds.add(record.batchId);
    if ('cultureId' in record && record.cultureId !== null) cultureIds.add(record.cultureId);
    if ('keepsCultureId' in record && record.keepsCultureId !== null) cultureIds.add(record.keepsCultureId);
  };
  for (const { kind, id, before, after } of changes) {
    if (kind === 'vessel' || kind === 'fill') vesselIds.add(id);
    if (kind === 'batch') batchIds.add(id);
    if (kind === 'culture') cultureIds.add(id);
    see(before);
    see(after);
  }
  const named = act.kind === 'restate' ? act.corrections.flatMap((each) => each.act ?? []) : [act];
  for (const each of named) {
    if (each.kind === 'startBatch' && each.repeatsBatchId) batchIds.add(each.repeatsBatchId);
    if (each.kind === 'note') {
      if (each.about.kind === 'vessel') vesselIds.add(each.about.vesselId);
      if (each.about.kind === 'batch') batchIds.add(each.about.batchId);
      if (each.about.kind === 'culture') cultureIds.add(each.about.cultureId);
    }
  }
  return { vesselIds: [...vesselIds], batchIds: [...batchIds], cultureIds: [...cultureIds] };
}
