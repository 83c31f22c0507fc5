import type { Pedigree, PedigreeRoot } from '#core/contract/pedigree.ts';
import type { BatchId, CultureId, EntryId, VesselId } from '#core/ledger/ids.ts';

/** Where in the program one can be, with what is shown there. */
export type Destination =
  | { readonly place: 'shelves'; readonly vesselId?: VesselId | undefined }
  | { readonly place: 'book'; readonly cultureId?: CultureId | undefined }
  | { readonly place: 'leaf'; readonly batchId: BatchId }
  /** Batches side by side, in that order. */
  | { readonly place: 'compare'; readonly batchIds: readonly BatchId[] }
  /** Where something came from, or what it ever touched. */
  | {
      readonly place: 'pedigree';
      readonly of: PedigreeRoot;
      readonly direction: Pedigree['direction'];
    }
  | { readonly place: 'cultures'; readonly cultureId?: CultureId | undefined }
  /** `reckoning` is the id of one; the vessel is the one it is worked out for. */
  | {
      readonly place: 'bench';
      readonly reckoning?: string | undefined;
      readonly vesselId?: VesselId | undefined;
    }
  /** `day` is the one chosen, such as `2026-11-25`; without it the calendar opens on today. */
  | { readonly place: 'calendar'; readonly day?: string | undefined }
  /** The Label Desk; what is to be labelled is handed over beside the address. */
  | { readonly place: 'labels' }
  | PaperDestination
  | { readonly place: 'strongbox' };

/** Something to be printed that is no label, laid out as the printer will have it. */
export type PaperDestination =
  | { readonly place: 'paper'; readonly paper: 'leaf'; readonly batchId: BatchId }
  | { readonly place: 'paper'; readonly paper: 'shelves' | 'due' }
  | { readonly place: 'paper'; readonly paper: 'cultures'; readonly cultureId?: CultureId | undefined };

/** The hash of the address for a destination, such as `#/leaf/018f…`. */
export function hashOf(destination: Destination): string {
  switch (destination.place) {
    case 'shelves':
      return join('shelves', destination.vesselId);
    case 'book':
      return join('book', destination.cultureId);
    case 'leaf':
      return join('leaf', destination.batchId);
    case 'compare':
      return join('compare', ...destination.batchIds);
    case 'pedigree': {
      const { direction, of } = destination;
      return join('pedigree', direction, of.kind, idOfRoot(of));
    }
    case 'cultures':
      return join('cultures', destination.cultureId);
    case 'bench':
      return join('bench', destination.reckoning, destination.vesselId);
    case 'calendar':
      return join('calendar', destination.day);
    case 'labels':
      return join('labels');
    case 'paper':
      return join('paper', destination.paper, idOnPaper(destination));
    case 'strongbox':
      return join('strongbox');
  }
}

/** The destination a hash names; Shelves for anything that is none of ours. */
export function destinationOf(hash: string): Destination {
  const bench = /^#\/bench(?:\/([a-z][A-Za-z0-9]{0,59}))?(?:\/([0-9a-f-]{36}))?$/u.exec(hash);
  if (bench) return benchOf(bench[1], bench[2]);
  const compared = /^#\/compare((?:\/[0-9a-f-]{36}){1,4})$/u.exec(hash)?.[1];
  if (compared !== undefined) {
    const batchIds = [...new Set(compared.slice(1).split('/'))] as BatchId[];
    return { place: 'compare', batchIds };
  }
  const traced = /^#\/pedigree\/(back|onward)\/(batch|culture|lot|vessel)\/([0-9a-f-]{36})$/u.exec(hash);
  if (traced) {
    const [, direction, kind, of = ''] = traced;
    return { place: 'pedigree', of: rootOf(kind, of), direction: direction === 'back' ? 'back' : 'onward' };
  }
  const day = /^#\/calendar(?:\/(\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])))?$/u.exec(hash);
  if (day) return day[1] === undefined ? { place: 'calendar' } : { place: 'calendar', day: day[1] };
  const paper = /^#\/paper\/(leaf|shelves|due|cultures)(?:\/([0-9a-f-]{36}))?$/u.exec(hash);
  if (paper) return paperOf(paper[1], paper[2]);
  const [, place, id = null] = /^#\/([a-z]+)(?:\/([0-9a-f-]{36}))?$/u.exec(hash) ?? [];
  switch (place) {
    case 'book':
      return id === null ? { place: 'book' } : { place: 'book', cultureId: id as CultureId };
    case 'leaf':
      return id === null ? { place: 'book' } : { place: 'leaf', batchId: id as BatchId };
    case 'cultures':
      return id === null ? { place: 'cultures' } : { place: 'cultures', cultureId: id as CultureId };
    case 'labels':
      return { place: 'labels' };
    case 'strongbox':
      return { place: 'strongbox' };
    default:
      return id === null || place !== 'shelves'
        ? { place: 'shelves' }
        : { place: 'shelves', vesselId: id as VesselId };
  }
}

function benchOf(reckoning: string | undefined, vesselId: string | undefined): Destination {
  return {
    place: 'bench',
    ...(reckoning === undefined ? {} : { reckoning }),
    ...(vesselId === undefined ? {} : { vesselId: vesselId as VesselId }),
  };
}

function idOnPaper(destination: PaperDestination): string | undefined {
  if (destination.paper === 'leaf') return destination.batchId;
  return destination.paper === 'cultures' ? destination.cultureId : undefined;
}

function paperOf(paper: string | undefined, id: string | undefined): Destination {
  switch (paper) {
    case 'leaf':
      return id === undefined ? { place: 'book' } : { place: 'paper', paper, batchId: id as BatchId };
    case 'cultures':
      return { place: 'paper', paper, ...(id === undefined ? {} : { cultureId: id as CultureId }) };
    case 'shelves':
      return { place: 'paper', paper };
    default:
      return { place: 'paper', paper: 'due' };
  }
}

function idOfRoot(of: PedigreeRoot): string {
  switch (of.kind) {
    case 'batch':
      return of.batchId;
    case 'culture':
      return of.cultureId;
    case 'lot':
      return of.lotId;
    case 'vessel':
      return of.vesselId;
  }
}

function rootOf(kind: string | undefined, id: string): PedigreeRoot {
  switch (kind) {
    case 'culture':
      return { kind, cultureId: id as CultureId };
    case 'lot':
      return { kind, lotId: id as EntryId };
    case 'vessel':
      return { kind, vesselId: id as VesselId };
    default:
      return { kind: 'batch', batchId: id as BatchId };
  }
}

function join(place: string, ...ids: readonly (string | undefined)[]): string {
  return ['#', place, ...ids.filter((id) => id !== undefined)].join('/');
}
