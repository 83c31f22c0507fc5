import { safePreferences } from '#main/hosts/electron/safe-preferences.ts';
import { readFileSync, readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const out = resolve(import.meta.dirname, '../../../../out');

function built(file: string): string {
  return readFileSync(resolve(out, file), 'utf8');
}

/** All files an entry of the built main process reaches by relative imports. */
function reached(entry: string, seen = new Set<string>()): Set<string> {
  if (seen.has(entry)) return seen;
  seen.add(entry);
  for (const [, file] of built(`main/${entry}`).matchAll(/from ?"\.\/([^"]+)"|import ?"\.\/([^"]+)"/g)) {
    if (file !== undefined) reached(file, seen);
  }
  return seen;
}

describe('the built preload', () => {
  const text = built('preload/preload.cjs');

  test('is a script a sandboxed page can load, and needs only Electron', () => {
    expect(text).not.toMatch(/^\s*(import|export)\b/m);
    const needed = [...text.matchAll(/require\((["'`])(.+?)\1\)/g)].map(([, , name]) => name);
    expect(new Set(needed)).toEqual(new Set(['electron']));
  });

  test('gives the page one function and nothing else', () => {
    expect(text.match(/exposeInMainWorld\(/g)).toHaveLength(1);
    expect(text).toMatch(/exposeInMainWorld\(["'`]undercroftPipe["'`], openPipe\)/);
    expect(text).not.toMatch(/executeJavaScript|process\.|eval\(/);
  });
});

describe('the built desktop host', () => {
  test('gives the page no Node, in a sandbox of its own', () => {
    expect(safePreferences('/preload.cjs')).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      webSecurity: true,
    });
    const text = built('main/main.js');
    expect(text).toMatch(/sandbox: true/);
    expect(text).toMatch(/webPreferences: safePreferences\(/);
    expect(text).toMatch(/enableSandbox\(\)/);
    expect(text).not.toMatch(
      /nodeIntegration: true|contextIsolation: false|sandbox: false|webSecurity: false/,
    );
  });
});

describe('what the built desktop host keeps out', () => {
  const text = built('main/main.js');
  const all = [...reached('main.js')].map((file) => built(`main/${file}`)).join('\n');

  test('is every way out of the page: going elsewhere, opening windows, asking for permissions', () => {
    for (const way of ['will-navigate', 'will-frame-navigate', 'will-redirect', 'will-attach-webview']) {
      expect(text, way).toMatch(new RegExp(`\\.on\\(["'\`]${way}["'\`]`));
    }
    expect(text).toMatch(/setWindowOpenHandler\(/);
    expect(text.match(/action: ["'`](\w+)["'`]/g)).toEqual([expect.stringContaining('deny')]);
    expect(text).toMatch(/setPermissionRequestHandler\(/);
    expect(text).toMatch(/setPermissionCheckHandler\(/);
    expect(text.match(/permission === ["'`][a-z-]+["'`]/g)).toEqual([
      expect.stringContaining('screen-wake-lock'),
    ]);
    expect(text).toMatch(/setDevicePermissionHandler\(\(\) => false\)/);
    expect(all).not.toMatch(
      /openExternal|enableBlinkFeatures|executeJavaScript|insertCSS|\beval\(|new Function\(/,
    );
  });

  test('is every address but its own: it loads its own page, and names no other place', () => {
    expect(text.match(/loadURL\(([^)]*)\)/g)).toHaveLength(1);
    expect(text).not.toMatch(/loadFile\(/);
    const hosts = [...all.matchAll(/\bhttps?:\/\/([a-z0-9.-]+\.[a-z0-9]+)/gi)].map(([, host]) => host);
    expect(hosts.filter((host) => host !== '127.0.0.1')).toEqual([]);
    expect(all).toContain("default-src 'none'");
    expect(all).not.toMatch(/unsafe-eval|script-src[^;"]*unsafe-inline/);
  });
});

describe('the built loopback host', () => {
  test('runs without Electron', () => {
    for (const file of reached('serve.js')) {
      expect(built(`main/${file}`), file).not.toMatch(/from ?["']electron["']/);
    }
  });

  test('finds the migrations from each of its files', () => {
    const folders = readdirSync(resolve(out, 'main'), { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    expect(folders).toEqual([]);
  });
});

describe('the built page', () => {
  test('reads no file from elsewhere and holds no script of its own', () => {
    const text = built('renderer/index.html');
    expect(text).not.toMatch(/https?:/);
    for (const [, attributes, content] of text.matchAll(/<script([^>]*)>([^<]*)<\/script>/g)) {
      expect(attributes).toMatch(/src="\.?\//);
      expect(content?.trim()).toBe('');
    }
    expect(text).not.toMatch(/\son\w+=|<style/);
  });
});
