import type { FileRefusal } from '#core/contract/cellar.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import { cellar } from './cellar-state.svelte.ts';
import { faults } from './faults.svelte.ts';

type Asked = 'file' | 'sample' | 'home';

/** Changes from one cellar file to another: another path, the sample, the one the program was started with. */
class OpenFile {
  busy = $state<Asked | null>(null);
  refusal = $state.raw<FileRefusal | null>(null);
  #waiting: readonly Asked[] = [];
  #before: Promise<unknown> = Promise.resolve();

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

  /** One after another: what is asked for while another file is being opened comes after it, and is what then lies open. */
  #change(which: Asked, send: () => Promise<FileAnswer>): Promise<boolean> {
    if (this.#waiting.includes(which)) return Promise.resolve(false);
    this.#waiting = [...this.#waiting, which];
    const mine = this.#before.then(() => this.#carryOut(which, send));
    this.#before = mine;
    return mine;
  }

  async #carryOut(which: Asked, send: () => Promise<FileAnswer>): Promise<boolean> {
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
      this.#waiting = this.#waiting.filter((asked) => asked !== which);
    }
  }
}

const sendHome = () => safe(client.cellar.openHome());
type FileAnswer = Awaited<ReturnType<typeof sendHome>>;

export const openFile = new OpenFile();
