import '@fontsource-variable/atkinson-hyperlegible-next';
import '@fontsource-variable/atkinson-hyperlegible-mono';
import '@fontsource-variable/literata';
import './tokens.css';
import './ui/elements.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { theme } from './ui/theme.svelte.ts';

const target = document.getElementById('app');
if (target === null) throw new Error('The page has no place for the program.');

theme.start();
mount(App, { target });
