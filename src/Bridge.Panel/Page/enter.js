// Where there is no key: says what to do, and takes the pass phrase where the program was started with one.

import { post } from './api.js';
import { at, say } from './elements.js';
import { forgetKey, keepKey } from './key.js';
import { showTrouble } from './trouble.js';

/** Shows the way in. `isOld` where a key was given that the program does not know. */
export function showEntrance(isOld) {
    forgetKey();
    document.title = 'Bridge';
    say(at('enter-title'), isOld ? 'This address is of an earlier start' : 'This address is not whole');
    say(
        at('enter-words'),
        `Open the address that the program printed when it was started last. It ends with #key= and a long word, which only this start of the program knows.`,
    );
    for (const view of document.querySelectorAll('.view, #prompt, #band')) view.hidden = true;
    at('enter').hidden = false;
    at('phrase').focus();
}

at('enter-form').addEventListener('submit', async event => {
    event.preventDefault();
    try {
        const { key } = await post('/api/enter', { phrase: at('phrase').value });
        keepKey(key);
        location.reload();
    } catch (trouble) {
        showTrouble(trouble);
        at('phrase').select();
    }
});
