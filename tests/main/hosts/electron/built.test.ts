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
