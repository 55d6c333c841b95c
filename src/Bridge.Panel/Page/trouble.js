// What went wrong, in the program's words: where, what was found, what is allowed, what to do.

import { at, make } from './elements.js';
import { refusalParts } from './refusal.js';

const mostRefusals = 20;

/** Shows what went wrong until it is read and put away, or something else goes wrong. */
export function showTrouble(trouble) {
    const place = at('trouble');
    const { refusals = [], detail = '' } = trouble;
    const more = refusals.length - mostRefusals;
    place.replaceChildren(
        make(
            'div',
            {},
            make('h2', { text: trouble.message.replace(/\.$/, '') }),
            ...(detail && refusals.length === 0 ? [make('p', { text: detail })] : []),
            ...refusals.slice(0, mostRefusals).map(refusalParts),
            ...(more > 0 ? [make('p', { text: `and ${more} more` })] : []),
        ),
        make('button', { type: 'button', text: 'Put away', onclick: hideTrouble }),
    );
}

export function hideTrouble() {
    at('trouble').replaceChildren();
}
