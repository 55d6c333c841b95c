import { make } from './elements.js';

/** A refusal: where, what was found, what is allowed, what to do. */
export function refusalParts({ place, found, allowed, action }) {
    const row = (name, value) => (value ? make('div', {}, make('dt', { text: name }), make('dd', { text: value })) : null);
    return make('dl', { class: 'refusal' }, row('Where', place), row('Found', found), row('Allowed', allowed), row('Do', action));
}
