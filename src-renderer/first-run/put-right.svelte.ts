import type { AboutCellar } from '#core/contract/cellar.ts';
import type { SalvageReport } from '#core/contract/salvage.ts';
import type { BackupRefusal, BackupSelf } from '#core/contract/strongbox-files.ts';
import type { ListedBackup } from '#core/contract/strongbox.ts';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { LongWork } from '../house-rules/long-work.svelte.ts';
import { nav } from '../navigation/navigation.svelte.ts';

export interface PutRightDone {
  readonly about: AboutCellar;
  /** Where the cellar that could not be opened now lies. */
  readonly aside: string;
  readonly backup: BackupSelf | null;
  readonly salvaged: SalvageReport | null;
}

export type PutRightBy =
  | { readonly by: 'backup'; readonly file: string; readonly passphrase: string | null }
  | { readonly by: 'salvage' };

/** What can be done about a cellar that could not be opened, and what came of it. */
class PutRight {
  /** Newest first; null until it is known. */
  backups = $state.raw<readonly ListedBackup[] | null>(null);
  readonly work = new LongWork<PutRightBy, PutRightDone, BackupRefusal>((asked, signal) =>
    client.strongbox.putRight(asked, { signal }),
  );

  async load(): Promise<void> {
    try {
      this.backups = await client.strongbox.list();
    } catch (error) {
      faults.report(error);
    }
  }

  /** Shows the cellar that was put in the place of the other. */
  async show(about: AboutCellar): Promise<void> {
    nav.replace({ place: 'shelves' });
    await cellar.takeFile(about);
    this.work.forget();
  }
}

export const putRight = new PutRight();
