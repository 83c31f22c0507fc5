import type { FileRefusal } from '#core/contract/cellar.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import { cellar } from './cellar-state.svelte.ts';
import { faults } from './faults.svelte.ts';

/** Changes from one cellar file to another: another path, the sample, the one the program was started with. */
class OpenFile {
  busy = $state<'file' | 'sample' | 'home' | null>(null);
  refusal = $state.raw<FileRefusal | null>(null);

  /** Opens a file; where none lies it is begun only when `begin` says so. */
  open(file: string, begin = false): Promise<boolean> {
    return this.#change('file', () => safe(client.cellar.open({ file, begin })));
  }

  openSample(): Promise<boolean> {
    return this.#change('sample', () => safe(client.cellar.openSample()));
  }

  openHome(): Promise<boolean> {
    return this.#change('home', sendHome);
  }

  /** Forgets the last refusal, once the path has been changed. */
  forget(): void {
    this.refusal = null;
  }

  async #change(which: 'file' | 'sample' | 'home', send: () => Promise<FileAnswer>): Promise<boolean> {
    if (this.busy !== null) return false;
    this.busy = which;
    this.refusal = null;
    try {
      const { error, data } = await send();
      if (error === null && data !== undefined) {
        nav.replace({ place: 'shelves' });
        await cellar.takeFile(data);
        return true;
      }
      if (isDefinedError(error) && error.code === 'FILE_REFUSED') this.refusal = error.data;
      else faults.report(error);
      return false;
    } catch (error) {
      faults.report(error);
      return false;
    } finally {
      this.busy = null;
    }
  }
}

const sendHome = () => safe(client.cellar.openHome());
type FileAnswer = Awaited<ReturnType<typeof sendHome>>;

export const openFile = new OpenFile();
