import type { BackupRefusal, BackupSelf, VerifiedBackup } from '#core/contract/strongbox-files.ts';
import type { AboutCellar } from '#core/contract/cellar.ts';
import type { SalvageReport } from '#core/contract/salvage.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { BatchId, VesselId } from '#core/ledger/ids.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type {
  BackupInside,
  BackUpReport,
  ListedBackup,
  StrongboxSettings,
  StrongboxState,
} from '#core/contract/strongbox.ts';
import { client } from '../backend/call.ts';
import { backupStanding } from '../cellar/backup-standing.svelte.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { LongWork } from '../house-rules/long-work.svelte.ts';

export interface BackupAsked {
  readonly file: string;
  readonly passphrase: string | null;
}

export interface BatchAsked extends BackupAsked {
  readonly batchId: BatchId;
  readonly fromVesselId: VesselId;
  readonly intoVesselId: VesselId;
  readonly note: string;
}

export interface SalvageAsked {
  readonly file: string;
  readonly target: string;
}

export interface RestoreDone {
  readonly about: AboutCellar;
  readonly backup: BackupSelf;
  readonly safety: VerifiedBackup;
}

export interface BatchBack {
  readonly posted: Posted;
  readonly readings: number;
  readonly readingsLeft: number;
}

/** What the Strongbox knows, and the long work that goes on while other places are looked at. */
class StrongboxPlace {
  state = $state.raw<StrongboxState | null>(null);
  list = $state.raw<readonly ListedBackup[] | null>(null);
  /** The backup that is being looked at. */
  asked = $state.raw<BackupAsked | null>(null);

  readonly backingUp = new LongWork<undefined, BackUpReport, BackupRefusal>((_none, signal) =>
    client.strongbox.backUp(undefined, { signal }),
  );
  readonly looking = new LongWork<BackupAsked, BackupInside, BackupRefusal>((asked, signal) =>
    client.strongbox.lookInside(asked, { signal }),
  );
  readonly verifying = new LongWork<BackupAsked, VerifiedBackup, BackupRefusal>((asked, signal) =>
    client.strongbox.verify(asked, { signal }),
  );
  readonly restoring = new LongWork<BackupAsked, RestoreDone, BackupRefusal>((asked, signal) =>
    client.strongbox.restore(asked, { signal }),
  );
  readonly openingBeside = new LongWork<
    BackupAsked & { readonly target: string },
    Omit<RestoreDone, 'safety'>,
    BackupRefusal
  >((asked, signal) => client.strongbox.openBeside(asked, { signal }));
  readonly bringingBack = new LongWork<BatchAsked, BatchBack, BackupRefusal | LedgerError>((asked, signal) =>
    client.strongbox.bringBackBatch({ requestId: crypto.randomUUID(), ...asked }, { signal }),
  );

  readonly salvaging = new LongWork<SalvageAsked, SalvageReport, BackupRefusal>((asked, signal) =>
    client.strongbox.salvage(asked, { signal }),
  );

  async load(): Promise<void> {
    try {
      this.state = await client.strongbox.state();
      this.list = await client.strongbox.list();
    } catch (error) {
      faults.report(error);
    }
    await backupStanding.load();
  }

  async settle(change: Partial<StrongboxSettings>): Promise<void> {
    if (this.state === null) return;
    try {
      this.state = await client.strongbox.settle({ ...this.state.settings, ...change });
      this.list = await client.strongbox.list();
    } catch (error) {
      faults.report(error);
    }
    await backupStanding.load();
  }

  async holdPassphrase(passphrase: string | null): Promise<void> {
    try {
      this.state = await client.strongbox.holdPassphrase({ passphrase });
    } catch (error) {
      faults.report(error);
    }
  }

  async backUp(): Promise<void> {
    await this.backingUp.start(undefined);
    await this.load();
  }

  async look(asked: BackupAsked): Promise<void> {
    this.#forget();
    this.asked = asked;
    await this.looking.start(asked);
  }

  putAway(): void {
    this.#forget();
    this.looking.forget();
    this.asked = null;
  }

  /** Restores and shows the cellar as it then is, in this place, where the way back stands. */
  async restore(asked: BackupAsked): Promise<void> {
    await this.restoring.start(asked);
    if (this.restoring.state.type !== 'done') return;
    this.looking.forget();
    this.asked = null;
    await this.#taken(this.restoring.state.done.about);
  }

  async openBeside(asked: BackupAsked, target: string): Promise<void> {
    await this.openingBeside.start({ ...asked, target });
    if (this.openingBeside.state.type === 'done') await this.#taken(this.openingBeside.state.done.about);
  }

  async bringBack(asked: BatchAsked): Promise<void> {
    await this.bringingBack.start(asked);
    if (this.bringingBack.state.type !== 'done') return;
    cellar.took(this.bringingBack.state.done.posted);
    await this.look({ file: asked.file, passphrase: asked.passphrase });
  }

  async salvage(file: string, target: string): Promise<void> {
    await this.salvaging.start({ file, target });
    await this.load();
  }

  async #taken(about: AboutCellar): Promise<void> {
    try {
      await cellar.takeFile(about);
      await this.load();
    } catch (error) {
      faults.report(error);
    }
  }

  #forget(): void {
    this.verifying.forget();
    this.restoring.forget();
    this.openingBeside.forget();
    this.bringingBack.forget();
    this.salvaging.forget();
  }
}

export const strongbox = new StrongboxPlace();
