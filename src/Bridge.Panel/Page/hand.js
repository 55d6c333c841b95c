// The machine by hand: connect, get it ready, and move it while a button is held.

import { showContacts } from './contacts.js';
import { at, make, say } from './elements.js';
import { Jog } from './jog.js';

const deedWords = {
    Connect: 'take the machine, nothing moves',
    Clear: 'leave Aborted, its cause is gone',
    Reset: 'looks for its zero: it moves by itself',
    Leave: 'let go of the machine',
};

const moves = [
    { id: 'away', text: 'Y +', words: 'away from you', axis: 'y', up: true, key: 'ArrowUp' },
    { id: 'left', text: 'X −', words: 'left', axis: 'x', up: false, key: 'ArrowLeft' },
    { id: 'right', text: 'X +', words: 'right', axis: 'x', up: true, key: 'ArrowRight' },
    { id: 'near', text: 'Y −', words: 'towards you', axis: 'y', up: false, key: 'ArrowDown' },
    { id: 'raise', text: 'Z +', words: 'up', axis: 'z', up: true, key: 'PageUp' },
    { id: 'lower', text: 'Z −', words: 'down', axis: 'z', up: false, key: 'PageDown' },
];

export class Hand {
    /** @param deeds hand(command), trouble(what) */
    constructor({ machine, device }, deeds) {
        this.jog = new Jog(deeds);
        this.words = make('p', { class: 'hint', id: 'jog-words' });
        this.inputs = make('ul', { class: 'inputs', 'aria-label': 'Contacts and axes' });
        this.deedButtons = Object.entries(deedWords).map(([name, words]) =>
            make(
                'button',
                { type: 'button', class: `deed is-${name.toLowerCase()}`, 'data-deed': name, onclick: () => deeds.hand(name) },
                make('b', { text: name }),
                make('span', { text: words }),
            ),
        );
        this.pad = this.makePad(machine);
        at('hand').append(
            make(
                'div',
                { class: 'hand-ready' },
                make('h2', { id: 'hand-title', text: 'By hand' }),
                make('p', {
                    text: device.isMock
                        ? 'The mock device stands for the machine: nothing real moves.'
                        : `What you press here moves ${machine.name}. Have its e-stop in reach.`,
                }),
                make('div', { class: 'deeds' }, ...this.deedButtons),
                this.inputs,
            ),
            make('div', { class: 'hand-move' }, make('h2', { text: 'Move while held' }), this.words, this.pad),
        );
    }

    makePad({ layers }) {
        const shown = moves.filter(move => move.axis !== 'z' || layers > 1);
        const byKey = {};
        const buttons = shown.map(({ id, text, words, axis, up, key }) => {
            const button = make(
                'button',
                { type: 'button', class: `jog is-${id}`, 'data-jog': id, 'aria-describedby': 'jog-words' },
                make('b', { text }),
                make('span', { text: words }),
            );
            this.jog.attach(button, { axis, up });
            byKey[key] = { button, move: { axis, up } };
            return button;
        });
        const pad = make('div', { class: layers > 1 ? 'pad has-z' : 'pad', role: 'group', 'aria-label': 'Move while held' }, ...buttons);
        this.jog.attachKeys(pad, byKey);
        this.jogButtons = buttons;
        return pad;
    }

    show(live, controls, isHeard) {
        const holds = isHeard && controls?.holds === true;
        const byHand = live?.what === 'hand';
        const accepts = live?.accepts ?? [];
        const may = {
            Connect: live !== null && !byHand && (live.run === null || live.run.end !== null),
            Leave: byHand,
            Clear: byHand && accepts.includes('Clear'),
            Reset: byHand && accepts.includes('Reset'),
        };
        for (const button of this.deedButtons) button.disabled = !holds || !may[button.dataset.deed];
        const mayMove = holds && byHand && (live.state === 'Idle' || live.state === 'Held');
        for (const button of this.jogButtons) button.disabled = !mayMove;
        this.jog.allow(mayMove);
        say(
            this.words,
            !isHeard
                ? 'The program is not heard: nothing can be moved from here.'
                : !holds
                  ? 'This page watches. Ask for the controls first.'
                  : mayMove
                    ? 'Hold a button, or with one of them in focus Space, the arrow keys, Page Up or Page Down. Let go, and it rests.'
                    : byHand
                      ? 'Only in Idle or Held: Clear and Reset it first.'
                      : 'Connect first.',
        );
        if (live !== null) showContacts(this.inputs, live);
    }
}
