import '../jsdom-parts.ts';
import { ORPCError } from '@orpc/client';
import { LostHostError } from '#renderer/backend/backend.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { faults } from '#renderer/cellar/faults.svelte.ts';
import { openFile } from '#renderer/cellar/open-file.svelte.ts';
import FirstRun from '#renderer/first-run/FirstRun.svelte';
import SampleBanner from '#renderer/first-run/SampleBanner.svelte';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar } from '../fake-cellar.ts';

const answers = vi.hoisted(() => ({
  about: vi.fn(),
  begin: vi.fn(),
  open: vi.fn(),
  openSample: vi.fn(),
  openHome: vi.fn(),
  undoState: vi.fn(),
}));
vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    cellar: {
      about: answers.about,
      begin: answers.begin,
      open: answers.open,
      openSample: answers.openSample,
      openHome: answers.openHome,
    },
    ledger: { undoState: answers.undoState },
  },
}));

const press = (name: string): Promise<unknown> => fireEvent.click(screen.getByRole('button', { name }));
const fill = (label: string, value: string): Promise<unknown> =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });
const refused = (type: string): ORPCError<string, unknown> =>
  new ORPCError('FILE_REFUSED', { defined: true, status: 422, data: { type, file: '/home/k/x.txt' } });

beforeEach(() => {
  vi.clearAllMocks();
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
  localStorage.clear();
  faults.clear();
  openFile.forget();
  answers.undoState.mockResolvedValue({ undo: null, redo: null });
  cellar.take(aboutCellar({ begun: false }));
});

describe('starting a cellar', () => {
  beforeEach(() => {
    render(FirstRun);
  });

  it('asks on one page, shows where the file lies, and begins', async () => {
    expect(screen.getByText('/home/k/home.undercroft')).toBeTruthy();
    answers.begin.mockResolvedValue(aboutCellar({ name: 'Mill House' }));
    await fill('What it is called', ' Mill House ');
    await fill('Shelves', '2');
    await fireEvent.click(screen.getByRole('radio', { name: 'US gallons' }));
    expect(screen.getByText('2 shelves of 8 places.')).toBeTruthy();
    await press('Start the cellar');
    expect(answers.begin.mock.calls[0]?.[0]).toMatchObject({
      name: 'Mill House',
      houseRules: { volume: 'us' },
      shelves: { placeName: 'Pantry', shelfCount: 2, positions: 8 },
    });
    await waitFor(() => expect(cellar.about?.begun).toBe(true));
  });

  it('lists what needs mending as links to the fields, and keeps what was typed', async () => {
    await fill('What it is called', '');
    await fill('Shelves', 'many');
    await press('Start the cellar');
    expect(answers.begin).not.toHaveBeenCalled();
    const [first] = screen.getAllByRole('link');
    await waitFor(() => expect(document.activeElement?.contains(first ?? null)).toBe(true));
    const shelves = screen.getByLabelText('Shelves');
    expect(shelves.getAttribute('aria-invalid')).toBe('true');
    expect((shelves as HTMLInputElement).value).toBe('many');
    await fireEvent.click(first as HTMLElement);
    expect(document.activeElement).toBe(screen.getByLabelText('What it is called'));
  });

  it('keeps what was typed when the program does not answer', async () => {
    answers.begin.mockRejectedValue(new LostHostError('gone'));
    await fill('What it is called', 'Mill House');
    await press('Start the cellar');
    await waitFor(() =>
      expect(screen.getByRole('alert').textContent).toContain('Undercroft does not answer.'),
    );
    expect(screen.getByLabelText<HTMLInputElement>('What it is called').value).toBe('Mill House');
    answers.about.mockResolvedValue(aboutCellar({ begun: false }));
    await fireEvent.click(screen.getByRole('button', { name: 'Retry' }));
  });

  it('is a draft through a reload', async () => {
    await fill('What it is called', 'Mill House');
    await waitFor(() => expect(localStorage.getItem('undercroft.draft.first-run')).toContain('Mill House'));
  });

  it('opens the cellar that another window has begun meanwhile', async () => {
    answers.begin.mockRejectedValue(new ORPCError('ALREADY_BEGUN', { defined: true, status: 409 }));
    answers.about.mockResolvedValue(aboutCellar());
    await press('Start the cellar');
    await waitFor(() => expect(cellar.about?.begun).toBe(true));
  });
});

describe('opening another cellar', () => {
  beforeEach(() => {
    render(FirstRun);
  });

  it('asks for a path when there is none', async () => {
    await press('Open this cellar');
    expect(answers.open).not.toHaveBeenCalled();
    expect(screen.getByText(/Type where the file lies/u)).toBeTruthy();
  });

  it('says why a file was refused beside the field, and keeps the path', async () => {
    answers.open.mockRejectedValue(refused('NotACellar'));
    const path = document.getElementById('open-cellar-file') as HTMLInputElement;
    await fireEvent.input(path, { target: { value: '/home/k/x.txt' } });
    await press('Open this cellar');
    await waitFor(() => expect(path.getAttribute('aria-invalid')).toBe('true'));
    expect(screen.getByText(/is not an Undercroft cellar/u)).toBeTruthy();
    expect(path.value).toBe('/home/k/x.txt');
    await fireEvent.input(path, { target: { value: '/home/k/y' } });
    expect(path.getAttribute('aria-invalid')).toBeNull();
  });

  it('opens it', async () => {
    answers.open.mockResolvedValue(aboutCellar({ file: '/home/k/other.undercroft' }));
    const path = document.getElementById('open-cellar-file') as HTMLInputElement;
    await fireEvent.input(path, { target: { value: ' /home/k/other.undercroft ' } });
    await press('Open this cellar');
    await waitFor(() => expect(cellar.about?.file).toBe('/home/k/other.undercroft'));
    expect(answers.open).toHaveBeenCalledWith({ begin: false, file: '/home/k/other.undercroft' });
  });

  it('begins a new cellar where nothing lies, once that is asked for', async () => {
    answers.open.mockRejectedValueOnce(refused('NoSuchFile'));
    const path = document.getElementById('open-cellar-file') as HTMLInputElement;
    await fireEvent.input(path, { target: { value: '/home/k/new.undercroft' } });
    await press('Open this cellar');
    await waitFor(() => expect(screen.getByText(/Nothing lies at/u)).toBeTruthy());
    answers.open.mockResolvedValue(aboutCellar({ file: '/home/k/new.undercroft' }));
    await press('Begin a new cellar there');
    await waitFor(() => expect(cellar.about?.file).toBe('/home/k/new.undercroft'));
    expect(answers.open).toHaveBeenLastCalledWith({ begin: true, file: '/home/k/new.undercroft' });
  });

  it('looks around the sample, and says so when it cannot be made', async () => {
    answers.openSample.mockRejectedValueOnce(refused('DiskFull'));
    await press('Look around');
    await waitFor(() => expect(screen.getByText(/is full/u)).toBeTruthy());
    answers.openSample.mockResolvedValue(aboutCellar({ isSample: true }));
    await press('Look around');
    await waitFor(() => expect(cellar.about?.isSample).toBe(true));
  });
});

describe('the sample', () => {
  it('is marked, and left again with one press', async () => {
    cellar.take(aboutCellar({ isSample: true }));
    render(SampleBanner);
    expect(screen.getByRole('complementary', { name: 'Sample cellar' })).toBeTruthy();
    answers.openHome.mockResolvedValue(aboutCellar());
    await press('Go back to your cellar');
    await waitFor(() => expect(screen.queryByRole('complementary')).toBeNull());
  });

  it('says why the way back failed', async () => {
    cellar.take(aboutCellar({ isSample: true }));
    render(SampleBanner);
    answers.openHome.mockRejectedValue(refused('InUse'));
    await press('Go back to your cellar');
    await waitFor(() => expect(screen.getByRole('alert').textContent).toContain('open in another program'));
  });
});
