import { SvelteMap } from 'svelte/reactivity';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';

/** Thumbnails asked for in one call, as the contract has it. */
const AT_ONCE = 40;

/**
 * Addresses of thumbnails, by checksum, fetched as they are wanted and many at a time. A picture never changes under
 * its checksum, so an address stays good for as long as the page does; another cellar file has pictures of its own.
 */
class PictureUrls {
  readonly #urls = new SvelteMap<string, string>();
  readonly #wanted = new Set<string>();
  readonly #asked = new Set<string>();
  #file = -1;

  /** The address of a thumbnail, or null until it is there. Calling it asks for it. */
  thumbnail(checksum: string): string | null {
    return this.#urls.get(checksum) ?? null;
  }

  /** Asks for a thumbnail; those asked for in one moment go in one call. */
  want(checksum: string): void {
    this.#forgetOtherFile();
    if (this.#asked.has(checksum)) return;
    this.#asked.add(checksum);
    if (this.#wanted.size === 0) queueMicrotask(() => void this.#fetch());
    this.#wanted.add(checksum);
  }

  async #fetch(): Promise<void> {
    const file = this.#file;
    const checksums = [...this.#wanted];
    this.#wanted.clear();
    try {
      for (let at = 0; at < checksums.length; at += AT_ONCE) {
        const found = await client.photos.thumbnails({ checksums: checksums.slice(at, at + AT_ONCE) });
        if (file !== this.#file) return;
        for (const { checksum, thumbnail } of found) {
          this.#urls.set(checksum, URL.createObjectURL(thumbnail));
        }
      }
    } catch (error) {
      for (const checksum of checksums) this.#asked.delete(checksum);
      faults.report(error);
    }
  }

  #forgetOtherFile(): void {
    if (this.#file === cellar.fileRevision) return;
    this.#file = cellar.fileRevision;
    for (const url of this.#urls.values()) URL.revokeObjectURL(url);
    this.#urls.clear();
    this.#asked.clear();
    this.#wanted.clear();
  }
}

export const pictureUrls = new PictureUrls();
