import '../jsdom-parts.ts';
import Dialog from '#renderer/ui/Dialog.svelte';
import Field from '#renderer/ui/Field.svelte';
import Segmented from '#renderer/ui/Segmented.svelte';
import SelectField from '#renderer/ui/SelectField.svelte';
import { theme } from '#renderer/ui/theme.svelte.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { createRawSnippet } from 'svelte';
import { describe, expect, it, vi } from 'vitest';

const words = (html: string) => createRawSnippet(() => ({ render: () => html }));

describe('a field', () => {
  it('ties hint, what was understood and error to the input', () => {
    render(Field, { label: 'Gravity', hint: 'as typed', understood: '1.048 SG', error: 'too high' });
    const input = screen.getByLabelText('Gravity');
    const described = input.getAttribute('aria-describedby')?.split(' ') ?? [];
    expect(described.map((id) => document.getElementById(id)?.textContent)).toEqual([
      'as typed',
      '1.048 SG',
      '!too high',
    ]);
    expect(input.getAttribute('aria-invalid')).toBe('true');
  });

  it('carries nothing it has not got', () => {
    render(Field, { label: 'Name' });
    const input = screen.getByLabelText('Name');
    expect(input.hasAttribute('aria-describedby')).toBe(false);
    expect(input.hasAttribute('aria-invalid')).toBe(false);
  });

  it('takes several lines where asked', async () => {
    const oninput = vi.fn();
    render(Field, { label: 'Note', lines: 3, oninput });
    await fireEvent.input(screen.getByLabelText('Note'), { target: { value: 'a\nb' } });
    expect(oninput).toHaveBeenCalledWith('a\nb');
  });
});

describe('a choice', () => {
  const options = [
    { value: 'C', label: '°C' },
    { value: 'F', label: '°F' },
  ] as const;

  it('is a group of radio buttons', async () => {
    const onchange = vi.fn();
    render(Segmented, { label: 'Warmth', value: 'C', options, onchange });
    expect(screen.getByRole('group', { name: 'Warmth' })).toBeTruthy();
    expect(screen.getByRole<HTMLInputElement>('radio', { name: '°C' }).checked).toBe(true);
    await fireEvent.click(screen.getByRole('radio', { name: '°F' }));
    expect(onchange).toHaveBeenCalledWith('F');
  });

  it('is a list where there are many', async () => {
    const onchange = vi.fn();
    render(SelectField, { label: 'Warmth', value: 'C', options, onchange });
    await fireEvent.change(screen.getByLabelText('Warmth'), { target: { value: 'F' } });
    expect(onchange).toHaveBeenCalledWith('F');
  });
});

describe('a dialog', () => {
  it('takes the focus to its first control and gives it back', async () => {
    document.body.insertAdjacentHTML('beforeend', '<button id="opener">Open</button>');
    const opener = document.getElementById('opener');
    opener?.focus();
    const onclose = vi.fn();
    const view = render(Dialog, {
      open: true,
      title: 'A question',
      onclose,
      children: words('<input id="inside">'),
    });
    await waitFor(() => expect(document.activeElement?.id).toBe('inside'));
    expect(screen.getByRole('dialog', { name: 'A question' })).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Close' }));
    await waitFor(() => expect(onclose).toHaveBeenCalledOnce());
    await waitFor(() => expect(document.activeElement).toBe(opener));
    view.unmount();
  });
});

describe('the theme', () => {
  it('stands on the root, resolved, and is remembered', () => {
    theme.start();
    theme.choose('dark');
    expect(document.documentElement.dataset['theme']).toBe('dark');
    const before = theme.revision;
    theme.choose('system');
    expect(document.documentElement.dataset['theme']).toBe('light');
    expect(theme.revision).toBeGreaterThan(before);
    expect(localStorage.getItem('undercroft.theme')).toBe('system');
  });
});
