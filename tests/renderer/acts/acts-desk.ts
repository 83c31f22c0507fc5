import { fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { tick } from 'svelte';
import { expect } from 'vitest';
import type { Act, ActKind, ActOf } from '#core/ledger/act.ts';
import ActDialogs from '#renderer/acts/ActDialogs.svelte';
import { acts, type ActRequest } from '#renderer/acts/acts-state.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import type { TestDesk } from '../../main/desk-for-tests.ts';

/** jsdom knows the dialog element but not its methods, and asks no media. */
export function teachDialogs(): void {
  HTMLDialogElement.prototype.showModal = function showModal() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    if (!this.open) return;
    this.open = false;
    this.dispatchEvent(new Event('close'));
  };
  Element.prototype.scrollIntoView = () => undefined;
  window.matchMedia = () => new EventTarget() as MediaQueryList;
}

/** The dialogs on a cellar of their own: filled in and pressed as a person would, and read back from the book. */
export function hands(desk: TestDesk) {
  const dialog = (): HTMLElement => screen.getByRole('dialog');
  const field = (label: string | RegExp): HTMLElement => within(dialog()).getByLabelText(labelled(label));
  return {
    dialog,
    field,
    async ask(request: ActRequest): Promise<void> {
      await cellar.load();
      render(ActDialogs);
      acts.open(request);
      await screen.findByRole('dialog');
      await tick();
    },
    async type(label: string | RegExp, text: string): Promise<void> {
      await within(await screen.findByRole('dialog')).findByLabelText(labelled(label));
      await fireEvent.input(field(label), { target: { value: text } });
    },
    async pick(label: string | RegExp, value: string): Promise<void> {
      await waitFor(() => {
        expect([...(field(label) as HTMLSelectElement).options].map((each) => each.value)).toContain(value);
      });
      await fireEvent.change(field(label), { target: { value } });
    },
    /** Chooses a vessel by typing part of its name. */
    async choose(label: string | RegExp, text: string, line: RegExp): Promise<void> {
      await fireEvent.input(await within(dialog()).findByLabelText(labelled(label)), {
        target: { value: text },
      });
      await fireEvent.click(await within(dialog()).findByRole('option', { name: line }));
    },
    async press(name: string | RegExp): Promise<void> {
      await fireEvent.click(await within(await screen.findByRole('dialog')).findByRole('button', { name }));
      await tick();
    },
    async mark(name: string | RegExp): Promise<void> {
      await fireEvent.click(await within(await screen.findByRole('dialog')).findByRole('radio', { name }));
    },
    /** Waits until the dialog has shut, and gives the newest act of the book. */
    async written<K extends ActKind>(kind: K): Promise<ActOf<K>> {
      await waitFor(() => {
        expect(screen.queryByRole('dialog')).toBeNull();
      });
      const { entries } = await desk.client.ledger.entries({ about: null, beforeSequence: null, limit: 1 });
      const act: Act | undefined = entries[0]?.act;
      expect(act?.kind).toBe(kind);
      return act as ActOf<K>;
    },
    typed: async (): Promise<Record<string, string> | undefined> => {
      const { entries } = await desk.client.ledger.entries({ about: null, beforeSequence: null, limit: 1 });
      return entries[0]?.typed;
    },
    summary: (): Promise<HTMLElement> => within(dialog()).findByRole('group', { name: 'What to mend' }),
    said: (words: RegExp): Promise<HTMLElement[]> => within(dialog()).findAllByText(words),
  };
}
/** A label in full, whether or not the field says that it may stay empty. */
function labelled(label: string | RegExp): RegExp {
  if (typeof label !== 'string') return label;
  return new RegExp(`^${label.replaceAll(/[.*+?^${}()|[\]\\]/gu, '\\$&')}(?: \\(may stay empty\\))?$`, 'u');
}

export type Hands = ReturnType<typeof hands>;
