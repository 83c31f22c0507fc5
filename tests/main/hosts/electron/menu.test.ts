import { menuTemplate } from '#main/hosts/electron/menu.ts';
import { ownArguments } from '#main/hosts/electron/own-arguments.ts';
import { menuRequests, type MenuRequest } from '#core/contract/menu-request.ts';
import type { MenuItem, MenuItemConstructorOptions } from 'electron';
import { describe, expect, test } from 'vitest';

function leaves(items: readonly MenuItemConstructorOptions[]): MenuItemConstructorOptions[] {
  return items.flatMap((item) => (Array.isArray(item.submenu) ? leaves(item.submenu) : [item]));
}

describe.each([true, false])('the menu (on macOS: %s)', (isMac) => {
  const asked: MenuRequest[] = [];
  const template = menuTemplate({ isMac, ask: (_window, request) => asked.push(request), withTools: false });

  test('has no item that does nothing', () => {
    for (const item of leaves(template)) {
      expect(item.role ?? item.click ?? item.type, JSON.stringify(item)).toBeDefined();
    }
  });

  test('asks the page for each thing the contract names, once', () => {
    for (const item of leaves(template)) {
      item.click?.({} as MenuItem, undefined, {});
    }
    expect(asked.toSorted()).toEqual(menuRequests.map(({ request }) => request).toSorted());
  });

  test('gives no key twice', () => {
    const keys = leaves(template).flatMap(({ accelerator }) => accelerator ?? []);
    expect(new Set(keys).size).toBe(keys.length);
  });

  test('shows the tools of the engine only while developing', () => {
    const roles = (withTools: boolean) =>
      leaves(menuTemplate({ isMac, ask: () => undefined, withTools })).map(({ role }) => role);
    expect(roles(false)).not.toContain('toggleDevTools');
    expect(roles(true)).toContain('toggleDevTools');
  });
});

describe('the words meant for us', () => {
  test('follow the project folder, or the packaged program', () => {
    expect(ownArguments(['electron', '--no-sandbox', '/uc', '--demo'], '/uc')).toEqual(['--demo']);
    expect(ownArguments(['electron', '/uc'], '/uc')).toEqual([]);
    expect(ownArguments(['undercroft', '--cellar', 'a'], undefined)).toEqual(['--cellar', 'a']);
  });
});
