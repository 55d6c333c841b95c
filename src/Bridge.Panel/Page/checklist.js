// What is asked before a real machine moves: one question at a time, and how many are left. Leaving is possible at each.

import { get, post } from './api.js';
import { at, make } from './elements.js';
import { counted } from './words.js';

const trials = {
    'tried today': 'The e-stop was tried today.',
    'to be tried': 'Have the e-stop in reach: the program asks for it to be pressed and released first, to see that it works.',
};

const aims = {
    run: {
        title: 'It is about to move',
        words: 'The machine looks for its zero across its whole frame, slowly, and then works by itself.',
        deed: 'Run it on the machine',
    },
    hand: {
        title: 'It is about to be yours',
        words: 'Nothing moves by connecting. With Reset it looks for its zero across its whole frame.',
        deed: 'Connect to the machine',
    },
};

export class Checklist {
    /** @param deeds trouble(what) */
    constructor(device, deeds) {
        this.device = device;
        this.deeds = deeds;
        this.dialog = at('checklist');
    }

    /** Asks for everything, and then runs the job on the machine or connects to it by hand. The mock device needs no questions. */
    async open(aim) {
        this.aim = aim;
        this.operator = '';
        this.answers = [];
        this.measureLost = false;
        if (this.device.isMock) {
            await this.go();
            return;
        }
        try {
            this.list = await get('/api/checklist');
        } catch (trouble) {
            this.deeds.trouble(trouble);
            return;
        }
        this.dialog.showModal();
        this.askName();
    }

    /** Closes it: the program is not heard. */
    close() {
        if (this.dialog.open) this.dialog.close();
    }

    page(title, ...parts) {
        const leave = make('button', { type: 'button', text: 'Leave: nothing moves', onclick: () => this.close() });
        this.dialog.replaceChildren(
            make('h2', { id: 'checklist-title', text: title, tabindex: '-1' }),
            ...parts.filter(part => part !== null),
            make('p', { class: 'leave' }, leave),
        );
        (this.dialog.querySelector('[data-first]') ?? this.dialog.querySelector('h2')).focus();
    }

    askName() {
        const asked = this.list.isWhole ? 'All is asked today' : 'What is asked each time';
        const name = make('input', { id: 'operator', type: 'text', maxlength: 60, autocomplete: 'off', required: true, 'data-first': true });
        const form = make(
            'form',
            {},
            make('p', {
                text: `${asked}: ${counted(this.list.items.length, 'question')}. A real machine is going to move.`,
            }),
            make('label', { for: 'operator', text: 'Who is at the machine?' }),
            name,
            make('button', { class: 'main-deed', text: 'To the first question' }),
        );
        form.addEventListener('submit', event => {
            event.preventDefault();
            this.operator = name.value.trim();
            if (this.operator !== '') this.ask(0);
        });
        this.page('Before it moves', form);
    }

    // No button has the focus: each yes is a deed of its own, and a key that is held down answers nothing.
    ask(index) {
        const { items } = this.list;
        if (index === items.length) {
            this.askToStart();
            return;
        }
        const item = items[index];
        const left = items.length - index - 1;
        this.page(
            `Question ${index + 1} of ${items.length}`,
            make('p', { class: 'question', id: 'question', text: item.ask }),
            make('p', { class: 'hint', text: item.why }),
            make('button', {
                type: 'button',
                class: 'main-deed',
                'aria-describedby': 'question',
                text: 'Yes',
                onclick: () => {
                    this.answers.push(item.id);
                    this.ask(index + 1);
                },
            }),
            make('p', { class: 'hint', text: left === 0 ? 'The last one' : `${left} left after this one. Where it is no: leave, make it right, begin again.` }),
        );
    }

    askToStart() {
        const { asksAgain, eStop } = this.list;
        const { title, words, deed } = aims[this.aim];
        const again =
            this.aim === 'run' && asksAgain !== null
                ? make(
                      'label',
                      { class: 'again' },
                      make('input', {
                          type: 'checkbox',
                          onchange: event => {
                              this.measureLost = event.target.checked;
                          },
                      }),
                      asksAgain,
                  )
                : null;
        this.page(
            title,
            make('ul', { class: 'words' }, make('li', { text: words }), eStop in trials ? make('li', { text: trials[eStop] }) : ''),
            again,
            make('button', {
                type: 'button',
                class: 'main-deed',
                id: 'start-run',
                text: deed,
                onclick: event => {
                    event.target.disabled = true;
                    this.go();
                },
            }),
        );
    }

    async go() {
        const on = this.device.isMock ? 'mock' : 'device';
        const { operator, answers, measureLost } = this;
        try {
            if (this.aim === 'run') await post('/api/run', { on, fast: false, operator, answers, measureLost });
            else await post('/api/hand/command', { command: 'Connect', on, operator, answers });
        } catch (trouble) {
            this.deeds.trouble(trouble);
        }
        this.close();
    }
}
