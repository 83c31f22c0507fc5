import { readOptions, type HostOptions } from '#main/hosts/options.ts';
import { describe, expect, test } from 'vitest';

const plain: HostOptions = { demo: false, noWindow: false, readyLine: false, help: false };

function understood(...words: readonly string[]): HostOptions {
  const reading = readOptions(words);
  if (!reading.ok) throw new Error(reading.sentence);
  return reading.options;
}

function refused(...words: readonly string[]): string {
  const reading = readOptions(words);
  if (reading.ok) throw new Error('It was understood.');
  return reading.sentence;
}

describe('the words after --', () => {
  test('nothing said opens the usual cellar in a window', () => {
    expect(understood()).toEqual(plain);
  });

  test('each option is understood, with a space or an equals sign', () => {
    expect(understood('--cellar', 'my pantry.undercroft')).toEqual({
      ...plain,
      cellar: 'my pantry.undercroft',
    });
    expect(understood('--cellar=a=b.undercroft')).toEqual({ ...plain, cellar: 'a=b.undercroft' });
    expect(understood('--port=4321', '--no-window')).toEqual({ ...plain, port: 4321, noWindow: true });
    expect(understood('--demo')).toEqual({ ...plain, demo: true });
    expect(understood('--help').help).toBe(true);
    expect(understood('-h').help).toBe(true);
    expect(understood('--ready-line').readyLine).toBe(true);
  });

  test.each(['80', '1023', '65536', '0', '-1', '4321x', '1e4', '', '99999999999'])(
    'port %j is refused with the range that is allowed',
    (port) => {
      expect(refused('--port', port)).toContain(`from 1024 to 65535; "${port}" followed`);
    },
  );

  test('an option that needs a word says so', () => {
    expect(refused('--port')).toContain('nothing followed');
    expect(refused('--cellar')).toContain('--cellar needs the name of a file');
    expect(refused('--cellar', '--demo')).toContain('--cellar needs the name of a file');
    expect(refused('--cellar=')).toContain('--cellar needs the name of a file');
  });

  test('a word that is no option is named', () => {
    expect(refused('--celar', 'x')).toContain('"--celar" is not an option');
    expect(refused('pantry.undercroft')).toContain('"pantry.undercroft" is not an option');
    expect(refused('--cellar', 'a', '--cellar', 'b')).toContain('given twice');
    expect(refused('--demo', '--cellar', 'a')).toContain('choose one');
  });
});
