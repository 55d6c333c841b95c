// Runs that were: each with how it ended, its times, its pictures and its report.

import { get, getFile, post } from './api.js';
import { at, make, say } from './elements.js';
import { signPicture } from './signs.js';
import { duration, grouped } from './words.js';

const mostPictures = 64;

export class Runs {
    /** @param deeds trouble(what) */
    constructor(deeds) {
        this.deeds = deeds;
        this.addresses = [];
        this.list = make('ol', { class: 'run-list' });
        this.words = make('p', { class: 'hint', role: 'status' });
        this.unreadable = make('div', {});
        at('runs').append(
            make(
                'div',
                { class: 'line' },
                make('h2', { id: 'runs-title', text: 'Past runs' }),
                make('button', { type: 'button', text: 'Look again', onclick: () => this.open() }),
            ),
            this.words,
            this.list,
            this.unreadable,
        );
    }

    /** Fetches the list, and unfolds the run of a name where one is given. */
    async open(name = null) {
        say(this.words, 'Looking …');
        try {
            const { runs, unreadable } = await get('/api/runs');
            this.forgetPictures();
            this.list.replaceChildren(...runs.map(run => this.entry(run, run.name === name)));
            this.unreadable.replaceChildren(
                ...(unreadable.length === 0
                    ? []
                    : [make('h3', { text: 'Cannot be read' }), make('ul', { class: 'words' }, ...unreadable.slice(0, 200).map(text => make('li', { text })))]),
            );
            say(this.words, runs.length === 0 ? 'None yet. Each run leaves its record here, dry runs too.' : `${runs.length} shown, the newest first`);
            this.list.querySelector('[open] summary')?.focus();
        } catch (trouble) {
            say(this.words, '');
            this.deeds.trouble(trouble);
        }
    }

    entry(run, isOpen) {
        const isComplete = run.outcome.toLowerCase() === 'complete';
        const body = make('div', { class: 'run-body' });
        const entry = make(
            'details',
            { class: 'past-run' },
            make(
                'summary',
                {},
                signPicture(isComplete ? 'normal' : 'abnormal'),
                make('b', { text: run.name }),
                make('span', { text: run.outcome }),
                make('span', { text: `${grouped(run.recordsDone)} of ${grouped(run.records)} records` }),
                make('span', { text: `${duration(run.seconds)}, ${duration(run.predictedSeconds)} predicted` }),
                make('span', { text: `${run.machine}, ${run.device}` }),
            ),
            body,
        );
        entry.addEventListener('toggle', () => entry.open && body.childElementCount === 0 && this.unfold(run, body));
        entry.open = isOpen;
        return make('li', {}, entry);
    }

    unfold(run, body) {
        const shown = run.pictures.slice(0, mostPictures);
        const figures = shown.map(file => make('figure', {}, make('img', { alt: `what was worked: ${file}` }), make('figcaption', { text: file })));
        body.append(
            make('p', {}, make('button', { type: 'button', text: 'Open its report', onclick: () => this.openReport(run) })),
            make('div', { class: 'pictures' }, ...figures),
            ...(run.pictures.length > mostPictures
                ? [make('p', { class: 'hint', text: `and ${run.pictures.length - mostPictures} more in the run's folder` })]
                : []),
        );
        shown.forEach((file, index) => this.load(run, file, figures[index].firstChild));
    }

    async load(run, file, image) {
        try {
            image.src = URL.createObjectURL(await getFile(`/api/runs/${encodeURIComponent(run.name)}/pictures/${encodeURIComponent(file)}`));
            this.addresses.push(image.src);
        } catch (trouble) {
            image.alt = `${file}: ${trouble.message}`;
        }
    }

    // A window of its own has no key: it is given an address that is good for a minute.
    async openReport(run) {
        try {
            const { path } = await post(`/api/runs/${encodeURIComponent(run.name)}/ticket`);
            open(path, '_blank', 'noopener');
        } catch (trouble) {
            this.deeds.trouble(trouble);
        }
    }

    forgetPictures() {
        for (const address of this.addresses.splice(0)) URL.revokeObjectURL(address);
    }
}
