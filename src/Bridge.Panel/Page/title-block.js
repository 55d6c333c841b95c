import { make } from './elements.js';

/** Figures as in the title block of a drawing: [name, value, more words or null] each. */
export function titleBlock(rows) {
    return make(
        'dl',
        { class: 'title-block' },
        ...rows.map(([name, value, more]) =>
            make('div', {}, make('dt', { text: name }), make('dd', {}, make('b', { text: value }), more === null ? null : make('small', { text: more }))),
        ),
    );
}
