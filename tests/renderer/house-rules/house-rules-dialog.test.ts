import '../jsdom-parts.ts';
import { ORPCError } from '@orpc/client';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Progress } from '#core/contract/cellar.ts';
import { LostHostError } from '#renderer/backend/backend.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { faults } from '#renderer/cellar/faults.svelte.ts';
import { openFile } from '#renderer/cellar/open-file.svelte.ts';
import { houseRules } from '#renderer/house-rules/house-rules-state.svelte.ts';
import HouseRulesDialog from '#renderer/house-rules/HouseRulesDialog.svelte';
import { checking, savingCopy } from '#renderer/house-rules/long-work.svelte.ts';
import { fireEvent, render, screen, waitFor } from '@testing-library/svelte';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aboutCellar } from '../fake-cellar.ts';

const answers = vi.hoisted(() => ({
  about: vi.fn(),
  settle: vi.fn(),
  rename: vi.fn(),
  saveCopy: vi.fn(),
  check: vi.fn(),
  openSample: vi.fn(),
  openHome: vi.fn(),
  undoState: vi.fn(),
}));
vi.mock('#renderer/backend/call.ts', () => ({
  client: {
    houseRules: { settle: answers.settle },
    ledger: { undoState: answers.undoState },
    cellar: {
      about: answers.about,
      rename: answers.rename,
      saveCopy: answers.saveCopy,
      check: answers.check,
      openSample: answers.openSample,
      openHome: answers.openHome,
    },
  },
}));

const press = (name: string): Promise<unknown> => fireEvent.click(screen.getByRole('button', { name }));
const choose = (name: string): Promise<unknown> => fireEvent.click(screen.getByRole('radio', { name }));
const settled = (): HouseRules => answers.settle.mock.lastCall?.[0] as HouseRules;

async function* steps<Done>(done: Done, count: number): AsyncGenerator<Progress, Done, void> {
  for (let step = 1; step <= count; step += 1) {
    await Promise.resolve();
    yield { what: 'book', done: step, total: count };
  }
  return done;
}

beforeEach(() => {
  vi.clearAllMocks();
  vi.spyOn(console, 'warn').mockImplementation(() => undefined);
  localStorage.clear();
  faults.clear();
  openFile.forget();
  savingCopy.forget();
  checking.forget();
  answers.about.mockImplementation(() => Promise.resolve(aboutCellar()));
  answers.settle.mockImplementation((rules: HouseRules) => Promise.resolve(rules));
  answers.undoState.mockResolvedValue({ undo: null, redo: null });
  cellar.take(aboutCellar());
  houseRules.open = false;
  render(HouseRulesDialog);
  houseRules.show();
});

describe('House Rules', () => {
  it('settles each change at once and shows it at once', async () => {
    await screen.findByRole('heading', { name: 'House Rules' });
    await choose('US gallons');
    expect(settled().volume).toBe('us');
    await choose('°F');
    expect(settled()).toMatchObject({ volume: 'us', temperature: 'F' });
    await choose('°Bx');
    await choose('25 November 2026');
    expect(settled()).toMatchObject({ gravity: 'Bx', dates: 'long' });
    await choose('Dark');
    expect(document.documentElement.dataset['theme']).toBe('dark');
    await choose('Light');
    expect(document.documentElement.dataset['theme']).toBe('light');
  });

  it('switches pantry mode and single letters', async () => {
    await fireEvent.click(await screen.findByRole('checkbox', { name: 'Pantry mode' }));
    expect(document.documentElement.hasAttribute('data-pantry')).toBe(true);
    await fireEvent.click(screen.getByRole('checkbox', { name: 'Single letters act' }));
    expect(settled()).toMatchObject({ pantry: true, singleKeys: false });
  });

  it('puts a rule back and says so when it cannot be kept', async () => {
    answers.settle.mockRejectedValue(new LostHostError('gone'));
    await screen.findByRole('radio', { name: 'US gallons' });
    await choose('US gallons');
    await waitFor(() => expect(screen.getByRole('alert').textContent).toContain('does not answer'));
    expect(cellar.rules.volume).toBe('metric');
  });

  it('reads the hydrometer as typed and asks again for what it cannot be', async () => {
    const field = await screen.findByLabelText('Your hydrometer is marked for');
    await fireEvent.input(field, { target: { value: 'warm' } });
    await fireEvent.change(field);
    expect(field.getAttribute('aria-invalid')).toBe('true');
    expect(answers.settle).not.toHaveBeenCalled();
    await fireEvent.input(field, { target: { value: '60 F' } });
    await fireEvent.change(field);
    expect(settled().hydrometerCalibrationCelsius).toBe(15.56);
  });

  it('chooses whose rules name vinegar, and unchooses them', async () => {
    const field = await screen.findByLabelText('Whose rules name vinegar');
    await fireEvent.change(field, { target: { value: 'uk' } });
    expect(settled().jurisdiction).toBe('uk');
    await fireEvent.change(field, { target: { value: 'none' } });
    expect(settled().jurisdiction).toBeNull();
  });

  it('renames the cellar, but not to nothing', async () => {
    answers.rename.mockImplementation(({ name }: { name: string }) => Promise.resolve(aboutCellar({ name })));
    const field = await screen.findByLabelText('Name');
    await fireEvent.input(field, { target: { value: '  ' } });
    await fireEvent.change(field);
    expect(screen.getByText('Say what the cellar is called.')).toBeTruthy();
    await fireEvent.input(field, { target: { value: 'Mill House' } });
    await fireEvent.change(field);
    await waitFor(() => expect(cellar.about?.name).toBe('Mill House'));
  });
});

describe('saving a copy', () => {
  it('tells its steps and where it lies', async () => {
    answers.saveCopy.mockImplementation(({ file }: { file: string }) =>
      Promise.resolve(steps({ file, bytes: 266_000 }, 3)),
    );
    await screen.findByRole('button', { name: 'Save a copy' });
    await press('Save a copy');
    await waitFor(() => expect(screen.getByText(/Saved:/u).textContent).toContain('266 kB'));
    expect((answers.saveCopy.mock.calls[0]?.[0] as { file: string }).file).toMatch(
      /home copy \d{4}-\d\d-\d\d\.undercroft$/u,
    );
  });

  it('can be stopped, and says that nothing is left', async () => {
    answers.saveCopy.mockImplementation((_input: unknown, { signal }: { signal: AbortSignal }) =>
      Promise.resolve(
        (async function* (): AsyncGenerator<Progress, never, void> {
          yield { what: 'copy', done: 1, total: 9 };
          await new Promise((_resolve, reject) => {
            signal.addEventListener('abort', () => {
              reject(new DOMException('stopped', 'AbortError'));
            });
          });
          throw new Error('unreachable');
        })(),
      ),
    );
    await screen.findByRole('button', { name: 'Save a copy' });
    await press('Save a copy');
    await waitFor(() => expect(screen.getByRole('progressbar').getAttribute('aria-valuenow')).toBe('11'));
    await press('Stop');
    await waitFor(() => expect(screen.getByText('Stopped. Nothing was left half-written.')).toBeTruthy());
    expect(faults.current).toBeNull();
  });

  it('says why it was refused and keeps the path', async () => {
    answers.saveCopy.mockRejectedValue(
      new ORPCError('FILE_REFUSED', {
        defined: true,
        status: 422,
        data: { type: 'AlreadyThere', file: '/x' },
      }),
    );
    await screen.findByRole('button', { name: 'Save a copy' });
    await press('Save a copy');
    await waitFor(() => expect(screen.getByText(/was not overwritten/u)).toBeTruthy());
    await fireEvent.input(screen.getByLabelText('Where the copy goes'), { target: { value: '' } });
    await press('Save a copy');
    expect(screen.getByText('Say where the copy goes.')).toBeTruthy();
  });
});

describe('checking the cellar', () => {
  it('reports what it found', async () => {
    answers.check.mockResolvedValueOnce(steps({ sound: true, entries: 4, faults: [] }, 2));
    await screen.findByRole('button', { name: 'Check this cellar' });
    await press('Check this cellar');
    await waitFor(() => expect(screen.getByText(/The file is whole/u)).toBeTruthy());
    answers.check.mockResolvedValueOnce(
      steps({ sound: false, entries: 4, faults: [{ type: 'TicketDiffers', detail: 'vessel 7' }] }, 2),
    );
    await press('Check this cellar');
    await waitFor(() => expect(screen.getByText(/A ticket says something else/u)).toBeTruthy());
  });

  it('says that nothing is known when it did not come to its end', async () => {
    answers.check.mockRejectedValue(new LostHostError('gone'));
    await screen.findByRole('button', { name: 'Check this cellar' });
    await press('Check this cellar');
    await waitFor(() => expect(screen.getByText(/did not come to its end/u)).toBeTruthy());
  });
});

describe('going to another cellar', () => {
  it('opens the sample and closes the dialog', async () => {
    answers.openSample.mockResolvedValue(aboutCellar({ isSample: true, file: '/tmp/sample' }));
    await screen.findByRole('button', { name: 'Look around the sample cellar' });
    await press('Look around the sample cellar');
    await waitFor(() => expect(houseRules.open).toBe(false));
  });
});

describe('what is asked of the cellar on opening', () => {
  it('counts what was written since the window opened', async () => {
    await screen.findByText('12 lines');
    houseRules.open = false;
    await waitFor(() => expect(screen.queryByText('12 lines')).toBeNull());
    answers.about.mockResolvedValue(aboutCellar({ entryCount: 31 }));
    houseRules.show();
    await screen.findByText('31 lines');
  });

  it('does not put back a rule that was changed while it was asked', async () => {
    let answer: (about: ReturnType<typeof aboutCellar>) => void = () => undefined;
    answers.about.mockReturnValue(new Promise((settle) => (answer = settle)));
    houseRules.open = false;
    await waitFor(() => expect(screen.queryByText('12 lines')).toBeNull());
    houseRules.show();
    await waitFor(() => expect(answers.about).toHaveBeenCalledTimes(2));
    await choose('US gallons');
    answer(aboutCellar({ entryCount: 31 }));
    await screen.findByText('31 lines');
    expect(cellar.rules.volume).toBe('us');
  });
});
