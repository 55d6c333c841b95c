// The band at the top: the state in words with its sign, the stopping controls, and who holds the controls.

import { at, make, mark, say } from './elements.js';
import { signPicture, signWord } from './signs.js';
import { duration, percent } from './words.js';

export class Band {
    /** @param deeds command(name) to give a command, controls(what) to ask for the controls, give them or keep them */
    constructor(deeds) {
        this.deeds = deeds;
        this.sign = '';
        this.holderSeen = '';
        this.buttons = [...document.querySelectorAll('.stop')];
        for (const button of this.buttons) button.addEventListener('click', () => deeds.command(button.dataset.command));
    }

    /** The machine that the panel is for. */
    setPanel({ machine, device }) {
        this.panel = { machine, device };
        document.title = `${machine.name} · Bridge`;
    }

    // What moves must not be mistaken for what is only rehearsed.
    showMachine(live) {
        const { machine, device } = this.panel;
        const isDry = live?.run?.end === null && live.run.isMock;
        say(
            at('machine'),
            `${machine.name} · ${isDry && !device.isMock ? 'dry run, the machine itself does not move' : device.isMock ? 'mock device' : device.name}`,
        );
    }

    show(live, controls, isHeard) {
        const sign = live?.sign ?? 'neutral';
        const { name, means } = stateName(live);
        if (this.sign !== sign) {
            this.sign = sign;
            at('sign').replaceChildren(signPicture(sign));
            mark(at('band'), 'data-sign', sign);
        }
        say(at('state'), isHeard ? name : `Was: ${name}`);
        say(at('means'), means);
        say(at('rate'), rate(live?.run ?? null));
        say(at('because'), because(live));
        mark(at('band'), 'data-seq', live?.seq ?? null);
        mark(at('band'), 'data-state', live?.state ?? '');
        for (const button of this.buttons) button.disabled = !isHeard || !(live?.accepts ?? []).includes(button.dataset.command);
        this.showMachine(live);
        this.showHolder(controls, isHeard);
    }

    // Drawn again only when it changed, so that a button keeps its focus.
    showHolder(controls, isHeard) {
        const seen = JSON.stringify([controls, isHeard]);
        if (seen === this.holderSeen) return;
        this.holderSeen = seen;
        at('holder').replaceChildren(...(controls === null ? [] : holderParts(controls, isHeard, this.deeds)));
    }
}

function holderParts({ holds, pages, asked, asking }, isHeard, deeds) {
    const button = (text, what, main) =>
        make('button', { type: 'button', class: main ? 'main-deed' : '', text, disabled: !isHeard, onclick: () => deeds.controls(what) });
    const others = pages > 1 ? `, ${pages - 1} more open` : '';
    if (holds && asked) {
        return [make('p', { role: 'alert', text: 'Another page asks for the controls.' }), button('Give them', 'give', true), button('Keep them', 'refuse')];
    }
    if (holds) return [make('p', { text: `This page has the controls${others}` })];
    if (asking) return [make('p', { text: 'Asked for the controls; the page that has them must give them' })];
    return [make('p', { text: 'This page watches. It may Hold, Stop and Abort' }), button('Ask for the controls', 'ask')];
}

// The state by its standard name, and what it means where that says more; what goes on where there is no state.
function stateName(live) {
    if (live === null) return { name: 'Not heard yet', means: '' };
    if (!live.state) return { name: live.stateWords ? capital(live.stateWords) : 'Nothing runs', means: '' };
    const means = live.stateWords.toLowerCase().startsWith(live.state.toLowerCase())
        ? live.stateWords.slice(live.state.length).replace(/^\W+/, '')
        : live.stateWords;
    return { name: live.state, means };
}

function because(live) {
    return [live?.causeWords ? `Because ${live.causeWords}.` : '', live?.whatToDo].filter(words => words).join(' ');
}

// How much of a run is done, and how long it still takes.
function rate(run) {
    if (run === null || run.end !== null || run.cellsInAll === 0) return '';
    const left = run.secondsLeft === null ? '' : `, ${duration(run.secondsLeft)} left`;
    return `${percent(run.cells / run.cellsInAll)} done${left}`;
}

function capital(words) {
    return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What a screen reader is told about a change, in one sentence. */
export function spokenState(live) {
    const { name, means } = stateName(live);
    return [signWord(live.sign), [name, means].filter(words => words).join(', '), because(live)].filter(words => words).join('. ');
}
