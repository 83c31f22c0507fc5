import type { ActDraft } from '#core/ledger/act.ts';
import type { FormReader } from '../acts/form-reader.ts';
import type { Step } from '../acts/act-form.svelte.ts';
import { sayPhotoRefusal } from '../words/photo-words.ts';
import { isoDayOf, clockOf } from '../words/time-words.ts';
import type { AboutPhotos } from './photos-state.svelte.ts';
import { preparePhoto, type ReadyPhoto } from './prepare-photo.ts';

/** A file that was chosen, while it is made ready and after. */
export interface ChosenPhoto {
  readonly key: number;
  readonly name: string;
  /** When the file says it was last written; null when it does not, or only just now. */
  readonly fileMs: number | null;
  readonly ready: ReadyPhoto | null;
  readonly url: string | null;
  /** Why it is not taken; '' while it is read and when it is ready. */
  readonly wrong: string;
}

type Prepare = typeof preparePhoto;
/** A file as old as this was taken just now. */
const JUST_NOW_MS = 60_000;

/** The files chosen for one form, each made ready in turn. */
export class ChosenPhotos {
  list = $state.raw<readonly ChosenPhoto[]>([]);
  readonly #prepare: Prepare;
  readonly #nowMs: () => number;
  #next = 0;

  constructor(nowMs: () => number, prepare: Prepare = preparePhoto) {
    this.#nowMs = nowMs;
    this.#prepare = prepare;
  }

  readonly isReading = $derived(this.list.some(({ ready, wrong }) => ready === null && wrong === ''));

  /** Takes files and makes them ready one after another, so that few large pictures lie in memory at once. */
  async take(files: readonly File[]): Promise<readonly ChosenPhoto[]> {
    const added = files.map((file): [ChosenPhoto, File] => [this.#begun(file), file]);
    this.list = [...this.list, ...added.map(([chosen]) => chosen)];
    for (const [chosen, file] of added) {
      const found = await this.#prepare(file).catch(() => null);
      if (found === null) {
        this.#put({ ...chosen, wrong: `“${chosen.name}” could not be read. Choose it again.` });
      } else if (!found.ok) this.#put({ ...chosen, wrong: sayPhotoRefusal(found.error, chosen.name) });
      else if (this.list.some(({ ready }) => ready?.checksum === found.value.checksum)) {
        this.#put({ ...chosen, wrong: `“${chosen.name}” is the same picture as another one here.` });
      } else {
        const url = URL.createObjectURL(found.value.thumbnail);
        this.#put({ ...chosen, ready: found.value, url });
      }
    }
    return added.map(([chosen]) => chosen);
  }

  remove(key: number): void {
    const gone = this.list.find((chosen) => chosen.key === key);
    if (gone?.url !== null && gone?.url !== undefined) URL.revokeObjectURL(gone.url);
    this.list = this.list.filter((chosen) => chosen.key !== key);
  }

  clear(): void {
    for (const { key } of this.list) this.remove(key);
  }

  #begun(file: File): ChosenPhoto {
    const key = (this.#next += 1);
    const age = this.#nowMs() - file.lastModified;
    const fileMs =
      Number.isFinite(age) && age > JUST_NOW_MS && file.lastModified > 0 ? file.lastModified : null;
    return { key, name: file.name, fileMs, ready: null, url: null, wrong: '' };
  }

  #put(chosen: ChosenPhoto): void {
    const isStillThere = this.list.some(({ key }) => key === chosen.key);
    if (!isStillThere && chosen.url !== null) URL.revokeObjectURL(chosen.url);
    this.list = this.list.map((one) => (one.key === chosen.key ? chosen : one));
  }
}

/** What a date field holds at first: the file's own time, or now. */
export function offeredWhen({ fileMs }: Pick<ChosenPhoto, 'fileMs'>): string {
  return fileMs === null ? 'now' : `${isoDayOf(fileMs)} ${clockOf(fileMs)}`;
}

/** The acts for all photos that are ready, and when each was taken. */
export function buildPhotos(
  read: FormReader,
  about: AboutPhotos,
  chosen: ChosenPhotos,
  momentByChecksum: Map<string, number | null>,
): readonly Step[] {
  const ready = chosen.list.flatMap(({ key, ready: photo }) => (photo === null ? [] : [{ key, photo }]));
  if (chosen.isReading) read.problem('files', 'A picture is still being made ready. Wait a moment.');
  else if (ready.length === 0) read.problem('files', 'Choose at least one picture.');
  return ready.map(({ key, photo }) => {
    const { checksum, widthPx, heightPx } = photo;
    const caption = read.line(`caption${key}`, 240);
    momentByChecksum.set(checksum, read.moment(`when${key}`));
    const act: ActDraft = { kind: 'addPhoto', about, checksum, widthPx, heightPx, caption };
    return () => act;
  });
}
