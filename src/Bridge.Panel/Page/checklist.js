// What is asked before a real machine moves: one question at a time, and how many are left. Leaving is possible at each.

import { get, post } from './api.js';
import { at, make } from './elements.js';
import { counted } from './words.js';

const trials = {
  'tried today': 'The e-stop was tried today.',
  'to be tried': 'The e-stop is still to be tried today: the program will ask for it, with the machine connected.',
};

export class Checklist {
  /** @param deeds trouble(what) */
  constructor(deeds) {
    this.deeds = deeds;
    this.dialog = at('checklist');
  }

  /** Asks for everything, and starts the run on the machine once all is answered well. */
  async open() {
    try {
      this.list = await get('/api/checklist');
    } catch (trouble) {
      this.deeds.trouble(trouble);
      return;
    }
    this.operator = '';
    this.answers = [];
    this.dialog.showModal();
    if (this.list.isNeeded) this.askName();
    else this.askToStart();
  }

  /** Closes it: the program is not heard, or something runs. */
  close() {
    if (this.dialog.open) this.dialog.close();
  }

  page(title, ...parts) {
    const leave = make('button', { type: 'button', text: 'Leave: nothing moves', onclick: () => this.close() });
    this.dialog.replaceChildren(make('h2', { id: 'checklist-title', text: title, tabindex: '-1' }), ...parts.filter(part => part !== null), make('p', { class: 'leave' }, leave));
    (this.dialog.querySelector('[autofocus]') ?? this.dialog.querySelector('h2')).focus();
  }

  askName() {
    const count = this.list.items.length;
    const name = make('input', { id: 'operator', type: 'text', maxlength: 80, autocomplete: 'off', required: true, autofocus: true, value: this.operator });
    const form = make('form', {}, make('p', { text: `${this.list.isWhole ? 'All is asked today' : 'What is asked each time'}: ${counted(count, 'question')}. A real machine is going to move.` }),
      make('label', { for: 'operator', text: 'Who is at the machine?' }), name, make('button', { class: 'main-deed', text: 'To the first question' }));
    form.addEventListener('submit', event => {
      event.preventDefault();
      this.operator = name.value.trim();
      if (this.operator !== '') this.ask(0);
    });
    this.page('Before it moves', form);
  }

  ask(index) {
    const { items } = this.list;
    if (index === items.length) {
      this.askToStart();
      return;
    }
    const item = items[index];
    const left = items.length - index - 1;
    this.page(`Question ${index + 1} of ${items.length}`,
      make('p', { class: 'question', id: 'question', text: item.ask }), make('p', { class: 'hint', text: item.why }),
      make('button', { type: 'button', class: 'main-deed', autofocus: true, 'aria-describedby': 'question', text: 'Yes', onclick: () => {
        this.answers.push(item.id);
        this.ask(index + 1);
      } }),
      make('p', { class: 'hint', text: left === 0 ? 'The last one' : `${left} left after this one. Where it is no: leave, make it right, begin again.` }));
  }

  askToStart() {
    const { asksAgain, eStop } = this.list;
    const words = ['The machine looks for its zero across its whole frame, slowly, and then works by itself.', trials[eStop] ?? null,
      asksAgain === null ? null : `After a complete run: ${asksAgain}`].filter(text => text !== null);
    this.page('It is about to move', make('ul', { class: 'words' }, ...words.map(text => make('li', { text }))),
      make('button', { type: 'button', class: 'main-deed', id: 'start-run', autofocus: true, text: 'Run it on the machine', onclick: event => this.start(event.target) }));
  }

  async start(button) {
    button.disabled = true;
    try {
      await post('/api/run', { on: 'device', fast: false, operator: this.operator, answers: this.answers });
    } catch (trouble) {
      this.deeds.trouble(trouble);
    }
    this.close();
  }
}
