// What a screen reader is told of the state: the usual when it is silent, trouble at once.

import { at, say } from './elements.js';

const restMs = 400; // states that last shorter are not told: a fast dry run has dozens in a second

export class Speech {
    constructor() {
        this.last = '';
    }

    tell(sign, words) {
        if (words === this.last) return;
        this.last = words;
        clearTimeout(this.timer);
        if (sign === 'emergency' || sign === 'abnormal') say(at('spoken-now'), words);
        else this.timer = setTimeout(() => say(at('spoken'), words), restMs);
    }
}
