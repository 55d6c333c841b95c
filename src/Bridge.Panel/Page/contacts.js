// The machine's contacts and axes by hand.

import { make } from './elements.js';

/** The machine's contacts, and which axes are referenced: a lamp, a name and a word for each. */
export function showContacts(list, live) {
    const rows = [];
    const contact = (name, isOn, on, off, isTrouble) => isOn === null || isOn === undefined || rows.push([name, isOn, isOn ? on : off, isTrouble && isOn]);
    const { inputs = null, referenced = null } = live.hand ?? {};
    if (inputs !== null) {
        contact('E-stop', inputs.eStopOpen, 'open: motors off', 'closed', true);
        contact('Endstop X', inputs.endstopX, 'pressed', 'free');
        contact('Endstop Y', inputs.endstopY, 'pressed', 'free');
        if (referenced?.z !== null) contact('Endstop Z', inputs.endstopZ, 'pressed', 'free');
        contact('Start button', inputs.startButton, 'pressed', 'free');
    }
    for (const axis of ['x', 'y', 'z']) contact(`Axis ${axis.toUpperCase()}`, referenced?.[axis], 'referenced', 'not referenced');
    const seen = JSON.stringify(rows);
    if (list.dataset.seen === seen) return;
    list.dataset.seen = seen;
    list.replaceChildren(
        ...rows.map(([name, isOn, words, isTrouble]) =>
            make(
                'li',
                { class: isTrouble ? 'is-trouble' : '' },
                make('i', { class: isOn ? 'lamp is-on' : 'lamp' }),
                make('span', { text: `${name}: ${words}` }),
            ),
        ),
    );
}
