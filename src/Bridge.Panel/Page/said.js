// What was said that a person should know, the newest first.

import { at, make } from './elements.js';
import { timeOfDay } from './words.js';

const most = 200;

/** Adds a sentence to the list; what is older than the last two hundred goes. */
export function addSaid({ words, at: when = null }) {
    const list = at('said-list');
    list.prepend(make('li', {}, when === null ? null : make('time', { text: timeOfDay(new Date(when)) }), ` ${words}`));
    while (list.childElementCount > most) list.lastChild.remove();
    at('said').hidden = false;
}

export function clearSaid() {
    at('said-list').replaceChildren();
    at('said').hidden = true;
}
