import { expect, test } from './program.ts';

test('the address opens the program once, and the window keeps it', async ({ page, program, browser }) => {
  const address = await program.start();
  await page.goto(address);
  await expect(page).toHaveURL(/^http:\/\/127\.0\.0\.1:\d+\/(#.*)?$/);
  await expect(page).toHaveTitle(/Undercroft/);
  await page.reload();
  await expect(page).toHaveTitle(/Undercroft/);

  const stranger = await browser.newContext();
  const other = await stranger.newPage();
  const refused = await other.goto(address);
  expect(refused?.status()).toBe(403);
  await expect(other.getByRole('heading', { name: 'Start Undercroft again' })).toBeVisible();
  await stranger.close();
});

test.describe(() => {
  test.use({ expectedFault: /status of 403/ });
  test('a window that lost its pass says to start again', async ({ page, program }) => {
    const address = new URL(await program.start());
    await page.goto(address.href);
    await page.context().clearCookies();
    const answer = await page.goto(address.origin);
    expect(answer?.status()).toBe(403);
    await expect(page.getByText('Your cellar is kept as it was.')).toBeVisible();
  });
});

test('another page on this computer can neither read nor call', async ({ page, program }) => {
  const address = new URL(await program.start());
  await page.goto(address.href);
  const elsewhere = await page.context().newPage();
  await elsewhere.route('http://127.0.0.1:9/', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<title>Elsewhere</title>' }),
  );
  await elsewhere.goto('http://127.0.0.1:9/');
  const outcome = await elsewhere.evaluate(async (origin) => {
    const attempt = (url: string, init?: RequestInit) =>
      fetch(url, { credentials: 'include', ...init }).then(
        (response) => `answered ${response.status}`,
        () => 'refused',
      );
    return [
      await attempt(`${origin}/`),
      await attempt(`${origin}/rpc/cellar/about`, { method: 'POST', body: '{}' }),
    ];
  }, address.origin);
  expect(outcome).toEqual(['refused', 'refused']);
});

test('the program ends cleanly when it is asked to', async ({ page, program }) => {
  await program.open();
  await expect(page).toHaveTitle(/Undercroft/);
  expect(await program.close()).toBe(0);
  expect(program.output()).not.toContain('Error');
});
