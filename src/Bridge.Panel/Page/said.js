// What was said that a person should know, the newest first.

import { at, make } from './elements.js';
import { timeOfDay } from './words.js';

const most = 200;

/** Adds words to the list; what is older than the last two hundred goes. */
export function addSaid(words, when = new Date()) {
  const list = at('said-list');
  list.prepend(make('li', {}, make('time', { text: timeOfDay(when) }), ` ${words}`));
  while (list.childElementCount > most) list.lastChild.remove();
  at('said').hidden = false;
}
