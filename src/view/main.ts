import { mount } from 'svelte';
import App from './App.svelte';
import './theme/theme.css';

const target = document.getElementById('app');
if (target === null) throw new Error('index.html has no element with the id "app".');

// In a browser that has no media queries none of them holds, and none ever will.
(window as Partial<Window>).matchMedia ??= (media) =>
  Object.assign(new EventTarget(), {
    media,
    matches: false,
    onchange: null,
    addListener: () => undefined,
    removeListener: () => undefined,
  });

mount(App, { target });
