import { dataFolder, defaultCellarFile } from '#main/platform/paths.ts';
import { expect, test } from 'vitest';

test.each([
  ['linux', {}, '/home/ada/.local/share/Undercroft'],
  ['linux', { XDG_DATA_HOME: '/data' }, '/data/Undercroft'],
  ['linux', { XDG_DATA_HOME: 'relative' }, '/home/ada/.local/share/Undercroft'],
  ['linux', { XDG_DATA_HOME: '' }, '/home/ada/.local/share/Undercroft'],
  ['darwin', { XDG_DATA_HOME: '/data' }, '/home/ada/Library/Application Support/Undercroft'],
])('the data folder on %s with %j is %s', (platform, env, folder) => {
  expect(dataFolder({ platform, home: '/home/ada', env })).toBe(folder);
});

test('the data folder on Windows', () => {
  const home = 'C:\\Users\\ada';
  expect(dataFolder({ platform: 'win32', home, env: { APPDATA: 'D:\\Roaming' } })).toBe(
    'D:\\Roaming\\Undercroft',
  );
  expect(dataFolder({ platform: 'win32', home, env: {} })).toBe(
    'C:\\Users\\ada\\AppData\\Roaming\\Undercroft',
  );
});

test('the usual cellar lies in the data folder', () => {
  expect(defaultCellarFile('/data/Undercroft')).toBe('/data/Undercroft/cellar.undercroft');
});
