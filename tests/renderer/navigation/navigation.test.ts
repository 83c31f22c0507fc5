import '../jsdom-parts.ts';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import PlaceLink from '#renderer/navigation/PlaceLink.svelte';
import type { BatchId, CultureId } from '#core/ledger/ids.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { beforeEach, describe, expect, it } from 'vitest';
import { uuid } from '../fake-cellar.ts';

beforeEach(() => {
  document.body.innerHTML = '<main id="main" tabindex="-1"><button id="held"></button></main>';
});

describe('going from place to place', () => {
  it('writes the place into the address, and comes back to where focus was', async () => {
    history.replaceState(null, '', '#/shelves');
    nav.start();
    expect(location.hash).toBe('#/shelves');
    document.getElementById('held')?.focus();
    nav.go({ place: 'leaf', batchId: uuid(13) as BatchId });
    expect(location.hash).toBe(`#/leaf/${uuid(13)}`);
    expect(nav.canGoBack).toBe(true);
    await waitFor(() => expect(document.activeElement?.id).toBe('main'));
    nav.back();
    await waitFor(() => expect(nav.current).toEqual({ place: 'shelves' }));
    await waitFor(() => expect(document.activeElement?.id).toBe('held'));
    expect(nav.canGoBack).toBe(false);
  });

  it('makes no step for the place one is in', () => {
    nav.go({ place: 'cultures' });
    const before = history.length;
    nav.go({ place: 'cultures' });
    expect(history.length).toBe(before);
  });

  it('changes what is shown without a step when asked to', () => {
    nav.go({ place: 'cultures' });
    const before = history.length;
    nav.replace({ place: 'cultures', cultureId: uuid(5) as CultureId });
    expect(history.length).toBe(before);
    expect(location.hash).toBe(`#/cultures/${uuid(5)}`);
  });

  it('goes to the shelves where there is nothing of ours to go back to', () => {
    history.replaceState(null, '', '#/book');
    nav.start();
    nav.back();
    expect(nav.current).toEqual({ place: 'shelves' });
  });

  it('begins with what the address says, as after a reload', () => {
    history.replaceState(null, '', `#/cultures/${uuid(5)}`);
    nav.start();
    expect(nav.current).toEqual({ place: 'cultures', cultureId: uuid(5) });
  });
});

describe('a link', () => {
  it('goes there, and leaves Ctrl to the browser', async () => {
    nav.go({ place: 'shelves' });
    const children = createRawSnippet(() => ({ render: () => '<span>The book</span>' }));
    render(PlaceLink, { to: { place: 'book' }, children });
    const link = screen.getByRole('link', { name: 'The book' });
    expect(link.getAttribute('href')).toBe('#/book');
    expect(await fireEvent.click(link, { ctrlKey: true })).toBe(true);
    expect(await fireEvent.click(link)).toBe(false);
    expect(nav.current).toEqual({ place: 'book' });
  });
});
