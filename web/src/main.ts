import 'virtual:look.css';
import '@fontsource-variable/inter/wght.css';
import '@fontsource-variable/vollkorn/wght.css';
import './page.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { settings } from './view/settings.svelte.ts';

settings.showTheme();
const target = document.getElementById('page');
if (target) mount(App, { target });
