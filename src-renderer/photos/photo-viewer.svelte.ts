import type { PhotoRow } from '#core/contract/photos.ts';

/** Which photo is shown large, among which others. The viewer stands once, beside the dialogs. */
class PhotoViewerState {
  photos = $state.raw<readonly PhotoRow[]>([]);
  /** What the photos are of, said for one that has no caption. */
  of = $state('');
  index = $state(0);
  isOpen = $state(false);

  readonly photo = $derived<PhotoRow | null>(this.photos[this.index] ?? null);

  show(photos: readonly PhotoRow[], photoId: string, of: string): void {
    const index = photos.findIndex((photo) => photo.photoId === photoId);
    if (index < 0) return;
    this.photos = photos;
    this.of = of;
    this.index = index;
    this.isOpen = true;
  }

  close(): void {
    this.isOpen = false;
  }

  /** Goes by so many photos and stops at the ends. */
  go(by: number): void {
    this.index = Math.min(this.photos.length - 1, Math.max(0, this.index + by));
  }

  /** Does what a key asks; false when the key means nothing here. */
  heed(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>): boolean {
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    const by = STEPS[event.key];
    if (by === undefined) return false;
    this.go(by);
    return true;
  }
}

const STEPS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowLeft: -1,
  Home: -Infinity,
  End: Infinity,
};

export const photoViewer = new PhotoViewerState();
