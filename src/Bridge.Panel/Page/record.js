// The record that is done now, its bits as lamps: lit for 1, dark for 0, and the digit in each.

import { make, mark, say } from './elements.js';
import { grouped } from './words.js';

export class RecordLamps {
    constructor() {
        this.title = make('h3', {});
        this.words = make('p', { class: 'record-words' });
        this.fields = make('ol', { class: 'bits' });
        this.element = make('section', { class: 'record', 'aria-label': 'The present record' }, this.title, this.fields, this.words);
        this.shape = '';
        this.index = -1;
    }

    /** Shows a record, or nothing. */
    show(record) {
        this.element.hidden = !record;
        if (!record || (record.index === this.index && record.bytes === this.bytes)) return;
        this.index = record.index;
        this.bytes = record.bytes;
        const pairs = record.bytes.match(/../g) ?? [];
        say(this.title, `Record ${grouped(record.index)} · ${pairs.join(' ').toUpperCase()}`);
        say(this.words, record.words);
        this.showFields(record.fields);
    }

    // The lamps stay and change; they are made anew only where the fields are others.
    showFields(fields) {
        const shape = fields.map(({ name, bits }) => `${name}${bits.length}`).join();
        if (shape !== this.shape) {
            this.shape = shape;
            this.fields.replaceChildren(
                ...fields.map(({ bits }) =>
                    make(
                        'li',
                        {},
                        make('span', { class: 'field-name' }),
                        make('span', { class: 'lamps', 'aria-hidden': 'true' }, ...Array.from(bits, () => make('i', { class: 'bit' }))),
                        make('span', { class: 'field-says' }),
                    ),
                ),
            );
        }
        fields.forEach(({ name, bits, says }, at) => {
            const [title, lamps, words] = this.fields.children[at].children;
            say(title, name);
            say(words, says);
            Array.from(bits, (bit, index) => {
                say(lamps.children[index], bit);
                mark(lamps.children[index], 'class', bit === '1' ? 'bit is-on' : 'bit');
            });
        });
    }
}
