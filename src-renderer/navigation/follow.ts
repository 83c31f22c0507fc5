import type { Destination } from './destination.ts';
import { nav } from './navigation.svelte.ts';

/** What a link inside the program does on a plain press; with Ctrl, Command or Shift the window system does its own. */
export function follow(to: Destination): (event: MouseEvent) => void {
  return (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    nav.go(to);
  };
}
