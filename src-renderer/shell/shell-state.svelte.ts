import type { MenuRequest } from '#core/contract/menu-request.ts';
import { backupStanding, type BackupAct } from '../cellar/backup-standing.svelte.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { localDayAround } from '../cellar/day.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { houseRules } from '../house-rules/house-rules-state.svelte.ts';
import { nav } from '../navigation/navigation.svelte.ts';

/** The longest a timer may sleep; a longer wait is cut into pieces. */
const LONGEST_SLEEP_MS = 3_600_000;

/** What belongs to the window as a whole: its title, its small dialogs, the turn of the day. */
class Shell {
  keysOpen = $state(false);
  alreadySavedOpen = $state(false);
  /** What the place in sight shows, such as a batch's name; it leads the window's title. */
  thing = $state<string | null>(null);

  titleOf(given: {
    readonly cellarName: string | null;
    readonly begun: boolean;
    readonly place: string;
  }): string {
    if (!given.begun) return 'Undercroft';
    const parts = [this.thing ?? given.cellarName, given.place, 'Undercroft'];
    return parts.filter((part) => part !== null && part !== '').join(' – ');
  }

  findOrChalk(): void {
    document.getElementById('find-or-chalk')?.focus();
  }

  skipToMain(event: MouseEvent): void {
    event.preventDefault();
    document.getElementById('main')?.focus();
  }

  /** Goes to the Strongbox, which takes up what was asked: how far it is can be seen there. */
  askStrongbox(act: BackupAct): void {
    backupStanding.asked = act;
    nav.go({ place: 'strongbox' });
  }

  heedMenu(request: MenuRequest): void {
    if (cellar.about?.begun !== true || document.querySelector('dialog[open]') !== null) return;
    switch (request) {
      case 'shelves':
        nav.go({ place: 'shelves' });
        break;
      case 'cellar-book':
        nav.go({ place: 'book' });
        break;
      case 'cultures':
        nav.go({ place: 'cultures' });
        break;
      case 'bench':
        nav.go({ place: 'bench' });
        break;
      case 'calendar':
        nav.go({ place: 'calendar' });
        break;
      case 'label-desk':
        nav.go({ place: 'labels' });
        break;
      case 'strongbox':
        nav.go({ place: 'strongbox' });
        break;
      case 'find-or-chalk':
        this.findOrChalk();
        break;
      case 'house-rules':
        houseRules.show();
        break;
      case 'open-cellar':
        houseRules.showOpening();
        break;
      case 'save-copy':
        houseRules.showCopy();
        break;
      case 'back-up-now':
        this.askStrongbox('backUp');
        break;
      case 'restore':
        this.askStrongbox('restore');
        break;
    }
  }

  /** Keeps "today" true over midnight, sleep and a change of the clock. Returns what ends it. */
  followDay(): () => void {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const waitForMidnight = (): void => {
      const untilMs = localDayAround(cellar.now()).endMs - cellar.now() + 500;
      timer = setTimeout(look, Math.min(Math.max(untilMs, 500), LONGEST_SLEEP_MS));
    };
    const look = (): void => {
      clearTimeout(timer);
      cellar.checkDay();
      waitForMidnight();
    };
    const shown = (): void => {
      if (document.visibilityState !== 'visible') return;
      look();
      cellar.refresh().catch((error: unknown) => {
        faults.report(error);
      });
    };
    window.addEventListener('focus', shown);
    document.addEventListener('visibilitychange', shown);
    waitForMidnight();
    return () => {
      clearTimeout(timer);
      window.removeEventListener('focus', shown);
      document.removeEventListener('visibilitychange', shown);
    };
  }
}

export const shell = new Shell();
