import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import { defineConfig } from 'eslint/config';
import globals from 'globals';
import { resolve } from 'node:path';
import ts from 'typescript-eslint';

const root = resolve(import.meta.dirname, '../..');

/** What the core may not touch, each with the reason a person reads when it happens to them. */
const impure = [
  {
    selector: "MemberExpression[object.name='Date'][property.name='now']",
    message: 'The core gets the time as an argument, so that a year of cellar can be played in a test.',
  },
  {
    selector: "NewExpression[callee.name='Date'][arguments.length=0]",
    message: 'The core gets the time as an argument, so that a year of cellar can be played in a test.',
  },
  {
    selector: "CallExpression[callee.name='Date']",
    message: 'The core gets the time as an argument, so that a year of cellar can be played in a test.',
  },
  {
    selector: "MemberExpression[object.name='Math'][property.name='random']",
    message: 'The core gets ids as an argument; chance would make its results unrepeatable.',
  },
  {
    selector: 'MemberExpression[property.name=/^toLocale/]',
    message: 'The core writes the same text on every computer; words for people belong to the page.',
  },
  {
    selector: "NewExpression[callee.object.name='Intl'][arguments.length=0]",
    message: 'Without a named locale the result differs from computer to computer.',
  },
];

export default defineConfig(
  { ignores: ['out/**', 'node_modules/**', 'test-results/**', 'playwright-report/**'] },
  js.configs.recommended,
  ...ts.configs.strictTypeChecked,
  ...svelte.configs.recommended,
  {
    languageOptions: {
      parserOptions: {
        projectService: {
          allowDefaultProject: ['src-main/hosts/electron/preload.ts'],
          defaultProject: 'src-main/hosts/electron/tsconfig.preload.json',
        },
        tsconfigRootDir: root,
        extraFileExtensions: ['.svelte'],
      },
    },
    rules: {
      '@typescript-eslint/no-confusing-void-expression': [
        'error',
        { ignoreArrowShorthand: true, ignoreVoidReturningFunctions: true },
      ],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/consistent-type-imports': 'error',
      // Signatures of index access are wanted: `env['HOME']` says that the name is data.
      '@typescript-eslint/dot-notation': 'off',
      // Null and undefined may be asked for together.
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      // A name that begins with an underscore is taken out of an object in order to leave it behind.
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', destructuredArrayIgnorePattern: '^_' },
      ],
      // A type parameter that stands once still names what is meant.
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      'no-empty': ['error', { allowEmptyCatch: false }],
      // Text is taken apart into code points on purpose.
      '@typescript-eslint/no-misused-spread': ['error', { allow: ['string'] }],
      // A promise may be promised by an interface without anything to wait for.
      '@typescript-eslint/require-await': 'off',
      // Text typed by people is searched for control characters on purpose.
      'no-control-regex': 'off',
      // TypeScript refuses enums here, so there are none to look for.
      '@typescript-eslint/no-unsafe-enum-assignment': 'off',
      '@typescript-eslint/no-unsafe-enum-comparison': 'off',
      // An empty context is how the call library writes that a router needs nothing.
      '@typescript-eslint/no-generated-empty-object-type': 'off',
      // The desktop library's own types declare classes that only it constructs.
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
      // TypeScript itself reports a name that does not exist, knowing what each layer has.
      'no-undef': 'off',
    },
  },
  { files: ['src-core/**/*.ts'], rules: { 'no-restricted-syntax': ['error', ...impure] } },
  { files: ['src-renderer/**', 'tests/renderer/**'], languageOptions: { globals: globals.browser } },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, svelteConfig: {} } },
    rules: {
      // A constant, a prop with a default and a piece of state may all be declared with let in one destructuring.
      'prefer-const': 'off',
      'svelte/prefer-const': ['error', { destructuring: 'all' }],
      // State changes behind the back of control flow, and svelte-check knows the types of the markup better.
      '@typescript-eslint/no-unnecessary-condition': 'off',
      'no-useless-assignment': 'off',
      // Naming a value inside an effect is how the effect is told to follow it.
      '@typescript-eslint/no-meaningless-void-operator': 'off',
      // Most sets and maps here live for one reckoning and are nobody's state.
      'svelte/prefer-svelte-reactivity': 'off',
    },
  },
  {
    files: ['**/*.svelte'],
    rules: {
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
  {
    files: ['tests/**', 'demo/**'],
    rules: {
      // A test may assert that something is there by using it.
      '@typescript-eslint/no-non-null-assertion': 'off',
    },
  },
);
