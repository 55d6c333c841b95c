// The run that goes on, or the one that has just ended: how much is done, how long still, where the head is, the record that is done now.

import { at, make, mark, say } from './elements.js';
import { RecordLamps } from './record.js';
import { signPicture } from './signs.js';
import { titleBlock } from './title-block.js';
import { duration, grouped, percent } from './words.js';

export class RunFigures {
    /** @param deeds planNext(), lookAt(run) */
    constructor(deeds) {
        this.deeds = deeds;
        this.place = at('run');
        this.ended = '';
        this.lamps = new RecordLamps();
        this.title = make('h2', {});
        this.bar = make('div', { class: 'progress', role: 'progressbar', 'aria-valuemin': 0, 'aria-valuemax': 100, 'aria-label': 'Work done' }, make('i', {}));
        this.done = make('p', { class: 'done' });
        this.end = at('ended');
        this.block = titleBlock([
            ['Time left', '', ''],
            ['Since the start', '', ''],
            ['Records', '', ''],
            ['Head', '', ''],
        ]);
        [this.left, this.since, this.records, this.head] = [...this.block.querySelectorAll('dd')];
        this.place.append(this.title, this.bar, this.done, this.block, this.lamps.element);
    }

    show(run) {
        this.place.hidden = run === null;
        this.end.hidden = run === null || run.end === null;
        if (run === null) return;
        say(this.title, run.isMock ? 'Dry run on the mock device' : `Run on ${run.device}`);
        this.showDone(run);
        figure(this.left, run.end ? 'none' : duration(run.secondsLeft ?? NaN), `${duration(run.predictedSeconds)} predicted for all`);
        figure(this.since, duration(run.elapsedSeconds), run.fast ? 'on its own clock, in fast time' : null);
        figure(this.records, grouped(run.records), `of ${grouped(run.recordsInAll)}`);
        figure(this.head, `${run.head ?? ''} ${run.x}, ${run.y}`, `layer ${run.layer}, ${run.working ? 'at work' : 'not at work'}`);
        this.lamps.show(run.end ? null : run.record);
        this.showEnd(run);
    }

    showDone({ cells, cellsInAll }) {
        const share = cellsInAll === 0 ? 1 : cells / cellsInAll;
        this.bar.firstChild.style.inlineSize = `${100 * share}%`;
        mark(this.bar, 'aria-valuenow', Math.floor(100 * share));
        mark(this.bar, 'aria-valuetext', `${percent(share)}, ${cells} of ${cellsInAll} cells`);
        say(this.done, `${percent(share)} · ${grouped(cells)} of ${grouped(cellsInAll)} cells`);
    }

    // Made once for each end, so that a button keeps its focus.
    showEnd(run) {
        const ended = run.end === null ? '' : `${run.name} ${run.end.outcome} ${run.end.seal}`;
        if (ended === this.ended) return;
        this.ended = ended;
        if (run.end === null) return;
        const { outcome, words, whatToDo, seal } = run.end;
        this.end.replaceChildren(
            make('p', { class: 'verdict' }, signPicture(outcome.toLowerCase() === 'complete' ? 'normal' : 'abnormal'), make('b', { text: words })),
            ...[
                whatToDo ? make('p', { text: whatToDo }) : null,
                make(
                    'dl',
                    { class: 'refusal' },
                    ...[
                        ['Time', run.end.jobSeconds === null ? null : `${duration(run.end.jobSeconds)} against ${duration(run.predictedSeconds)} predicted`],
                        ['Record', run.name],
                        ['Seal', seal],
                    ]
                        .filter(([, value]) => value)
                        .map(([name, value]) => make('div', {}, make('dt', { text: name }), make('dd', { text: value }))),
                ),
                make(
                    'p',
                    { class: 'ways' },
                    make('button', { type: 'button', class: 'main-deed', id: 'plan-next', text: 'Plan the next', onclick: () => this.deeds.planNext(run) }),
                    make('button', { type: 'button', text: 'Look at the record', onclick: () => this.deeds.lookAt(run) }),
                ),
            ].filter(part => part !== null),
        );
    }
}

function figure(place, value, more) {
    say(place.children[0], value);
    say(place.children[1], more ?? '');
}
