import { render, screen } from '@testing-library/svelte';
import { expect, it } from 'vitest';
import TwoPlaces from './TwoPlaces.svelte';

it('the tools of the place in sight stand in the tool row, whatever gives way to what', async () => {
  const shown = (): (string | null)[] =>
    screen.queryAllByRole('button').map(({ textContent }) => textContent);
  const view = render(TwoPlaces, { place: 'first' });
  expect(shown()).toEqual(['one']);
  await view.rerender({ place: 'second' });
  expect(shown()).toEqual(['two']);
  await view.rerender({ place: 'first' });
  expect(shown()).toEqual(['one']);
  await view.rerender({ place: 'first', round: 1 });
  expect(shown()).toEqual(['one']);
});
