import './backend/no-eval.ts';
import { mount } from 'svelte';
import App from './App.svelte';

const target = document.getElementById('app');
if (target === null) throw new Error('The page has no place for the program.');

mount(App, { target });
