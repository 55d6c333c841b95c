// What the plan at hand costs, whether it is proved and fits, and the way to a run.

import { getFile, get } from './api.js';
import { at, make } from './elements.js';
import { refusalParts } from './refusal.js';
import { saveFile } from './saving.js';
import { signPicture } from './signs.js';
import { titleBlock } from './title-block.js';
import { counted, duration, grouped } from './words.js';

const mostRows = 200;

export class PlanFigures {
    /** @param deeds show(layer), dryRun(fast), askToRun(), trouble(what) */
    constructor(panel, deeds) {
        this.panel = panel;
        this.deeds = deeds;
        this.place = at('plan');
    }

    show(job) {
        this.place.hidden = job === null;
        this.place.replaceChildren(...(job === null ? [] : this.parts(job).filter(part => part !== null)));
        this.allow(this.may ?? {});
    }

    parts(job) {
        return [
            make('h2', { text: job.name }),
            this.verdict(job),
            storeBar(job),
            this.facts(job),
            findings('Faults', 'fault', job.faults, this.deeds.show),
            findings('Cautions', 'caution', job.cautions, this.deeds.show),
            wordList('What would help', job.advice),
            wordList('Told while planning', job.told),
            this.ways(job),
            layerTable(job),
            costTable(job),
        ];
    }

    verdict(job) {
        const [sign, words] = !job.fits
            ? ['abnormal', `It does not fit: ${counted(job.bytes - job.storeBytes, 'byte')} too many`]
            : !job.isProved
              ? ['abnormal', `Not proved: ${counted(job.faults.length, 'fault')}`]
              : ['normal', 'Proved, and it fits the store'];
        return make('p', { class: 'verdict', id: 'verdict' }, signPicture(sign), make('b', { text: words }));
    }

    facts(job) {
        return titleBlock(
            [
                ['Records', grouped(job.records), job.recordsInAll === job.records ? null : `${grouped(job.recordsInAll)} with what is done again`],
                ['Time', duration(job.seconds), 'predicted'],
                ['Cells', grouped(job.cells), job.cellsB > 0 ? `a ${grouped(job.cellsA)}, b ${grouped(job.cellsB)}` : null],
                ['Layers', grouped(job.layers.length), null],
                job.gap === null
                    ? null
                    : ['Gap', job.gap === 0 ? 'none' : counted(job.gap, 'record'), job.gap === 0 ? 'no layer can be shorter' : 'at most above the fewest'],
            ].filter(row => row !== null),
        );
    }

    ways(job) {
        const speed = make(
            'select',
            { id: 'speed' },
            make('option', { value: 'fast', text: 'as fast as it can' }),
            make('option', { value: 'real', text: 'in real time' }),
        );
        this.dry = make('button', {
            type: 'button',
            id: 'dry-run',
            class: 'main-deed',
            text: 'Dry run',
            onclick: () => this.deeds.dryRun(speed.value === 'fast'),
        });
        this.real = make('button', { type: 'button', id: 'run-it', class: 'main-deed', text: 'Run on the machine …', onclick: () => this.deeds.askToRun() });
        return make(
            'div',
            { class: 'ways' },
            make('p', {}, this.dry, make('label', { for: 'speed', text: 'on the mock device' }), speed),
            this.panel.device.isMock ? null : make('p', {}, this.real, `on ${this.panel.device.name}`),
            make('p', {}, make('button', { type: 'button', text: 'Save the job file', onclick: () => this.save(job) })),
        );
    }

    async save(job) {
        try {
            saveFile(await getFile('/api/job/file'), `${job.name.replace(/\.[^.]*$/, '')}.job`);
        } catch (trouble) {
            this.deeds.trouble(trouble);
        }
    }

    /** Whether this page may run the job now. */
    allow(may) {
        this.may = may;
        if (this.dry) this.dry.disabled = !may.run;
        if (this.real) this.real.disabled = !may.run;
    }

    /** The job at hand, null where there is none. */
    static async fetch() {
        try {
            return await get('/api/job');
        } catch (trouble) {
            if (trouble.status === 404) return null;
            throw trouble;
        }
    }
}

// The store as a strip as long as its bytes, a piece for each layer; what is too much sticks out over its end.
function storeBar(job) {
    const words = `${grouped(job.bytes)} of ${grouped(job.storeBytes)} bytes of the store`;
    const whole = Math.max(job.bytes, job.storeBytes);
    const bar = make('div', {
        class: job.fits ? 'store-bar' : 'store-bar is-over',
        role: 'img',
        'aria-label': `${words}, ${counted(job.layers.length, 'layer')}; the table of layers has each`,
    });
    for (const [index, { layer, bytes }] of job.layers.slice(0, mostRows).entries()) {
        const piece = make('i', { class: index % 2 === 0 ? 'piece' : 'piece is-odd', title: `layer ${layer}: ${bytes} bytes` });
        if (bytes / whole > 0.07) piece.textContent = layer;
        piece.style.flexGrow = bytes;
        bar.append(piece);
    }
    const rest = job.bytes - job.layers.slice(0, mostRows).reduce((sum, layer) => sum + layer.bytes, 0);
    if (rest > 0) bar.append(grown('piece is-odd', rest));
    if (job.storeBytes > job.bytes) bar.append(grown('free', job.storeBytes - job.bytes));
    const end = make('span', { class: 'store-end', 'aria-hidden': 'true' });
    end.style.insetInlineStart = `${(100 * job.storeBytes) / whole}%`;
    return make(
        'div',
        { class: 'store' },
        make('p', { text: words }),
        make('div', { class: 'store-frame' }, bar, end),
        make('p', {
            class: 'hint',
            text: job.fits
                ? `${counted(job.storeBytes - job.bytes, 'byte')} free; a piece for each layer`
                : 'a piece for each layer; the stroke is the end of the store',
        }),
    );
}

function grown(name, by) {
    const piece = make('i', { class: name });
    piece.style.flexGrow = by;
    return piece;
}

function findings(title, kind, all, show) {
    if (all.length === 0) return null;
    return make(
        'section',
        { class: 'findings' },
        make('h3', { text: `${title}: ${grouped(all.length)}` }),
        make('ol', { class: kind === 'fault' ? 'is-fault' : '' }, ...all.slice(0, mostRows).map(found => finding(found, show))),
        all.length > mostRows ? make('p', { class: 'hint', text: `and ${grouped(all.length - mostRows)} more` }) : null,
    );
}

function finding({ place, found, allowed, action, cells }, show) {
    const [first] = cells;
    return make(
        'li',
        {},
        refusalParts({ place, found, allowed, action }),
        first === undefined
            ? null
            : make('button', {
                  type: 'button',
                  class: 'small',
                  text: `Show it on layer ${first.layer}`,
                  'aria-label': `Show it on layer ${first.layer}: ${place}`,
                  onclick: () => show(first.layer),
              }),
    );
}

function wordList(title, words) {
    return words.length === 0
        ? null
        : make('section', {}, make('h3', { text: title }), make('ul', { class: 'words' }, ...words.slice(0, mostRows).map(text => make('li', { text }))));
}

function layerTable(job) {
    const shown = job.layers.slice(0, mostRows);
    return table(
        `Layers${shown.length < job.layers.length ? `: the first ${mostRows} of ${grouped(job.layers.length)}` : ''}`,
        ['layer', 'records', 'at least', 'bytes', 'cells a', 'cells b', 'time'],
        shown.map(({ layer, records, atLeast, bytes, cellsA, cellsB, seconds }) =>
            [layer, records ?? '–', atLeast ?? '–', bytes ?? '–', cellsA, cellsB, duration(seconds)],
        ),
    );
}

function costTable(job) {
    return job.costs.length === 0
        ? null
        : table(
              'What it costs',
              ['what', 'head', 'records', 'bytes'],
              job.costs.map(cost => [cost.feature, cost.head ?? '', cost.records, cost.bytes]),
          );
}

function table(title, heads, rows) {
    return make(
        'details',
        {},
        make('summary', { text: title }),
        make(
            'div',
            { class: 'scrolled', tabindex: '0', role: 'region', 'aria-label': title },
            make(
                'table',
                {},
                make('thead', {}, make('tr', {}, ...heads.map(text => make('th', { scope: 'col', text })))),
                make('tbody', {}, ...rows.map(row => make('tr', {}, ...row.map(value => make('td', { text: String(value) }))))),
            ),
        ),
    );
}
