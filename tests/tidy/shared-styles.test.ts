import { basename, dirname } from 'node:path';
import { expect, test } from 'vitest';
import { projectFiles } from './source-files.ts';

// What several components share of their looks stands once, in a stylesheet of `src-renderer/ui` that each of them imports.

const sheets = projectFiles(['.css']).filter(
  ({ path }) => dirname(path) === 'src-renderer/ui' && basename(path) !== 'elements.css',
);
const components = projectFiles(['.svelte']).filter(({ path }) => path.startsWith('src-renderer/'));

/** A class of a sheet's own, rather than one that only says more about it, such as `.card.chosen`. */
function classesOf(css: string): Set<string> {
  return new Set([...css.matchAll(/^\.([a-z-]+)/gmu)].map(([, name = '']) => name));
}

/** Every word in the class of any element of a component. */
function wordsOfClasses(component: string): Set<string> {
  const markup = component.split('<style>')[0] ?? '';
  const classes = [...markup.matchAll(/\bclass=(?:"([^"]*)"|\{(.*?)\}(?=[\s>/]))/gsu)];
  return new Set(classes.flatMap(([, plain = '', reckoned = '']) => (plain + reckoned).split(/[^\w-]+/u)));
}

test.each(sheets)(
  'who uses a class of $path imports it, and nobody else means something by it',
  ({ path, text }) => {
    const names = [...classesOf(text)];
    expect(names).not.toEqual([]);
    const without = components
      .filter((component) => !component.text.includes(`/${basename(path)}'`))
      .filter((component) => names.some((name) => wordsOfClasses(component.text).has(name)))
      .map((component) => component.path);
    expect(without).toEqual([]);
  },
);
