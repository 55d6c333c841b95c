// Where a shape comes from, and how it is to be read and planned: a file, an example or text, and its options.

import { postFile, Trouble } from './api.js';
import { at, make, say } from './elements.js';
import { grouped } from './words.js';

const planMs = 90_000;
const kinds = { txt: 'cells', csv: 'cells', png: 'picture', svg: 'drawing', stl: 'mesh', job: 'job' };

const fields = [
    { name: 'size', label: 'Longest side', hint: 'as in 40 or 40mm', for: ['picture', 'drawing', 'mesh'] },
    { name: 'height', label: 'Height of capitals', hint: 'as in 9 or 20mm', for: ['text'] },
    { name: 'place', label: 'Place of its corner', hint: '10,4 or 25mm,10mm or middle', for: ['cells', 'picture', 'drawing', 'mesh', 'text'] },
    { name: 'turn', label: 'Turn, in degrees', hint: 'as in 90; a mesh also x90,30', for: ['cells', 'picture', 'drawing', 'mesh', 'text'] },
    { name: 'threshold', label: 'Threshold of greys', hint: '0 to 255; 128 where left out', for: ['picture', 'drawing'] },
    { name: 'hollow', label: 'Hollow: walls left', hint: 'as in 1 or 2mm', for: ['cells', 'picture', 'drawing', 'mesh', 'text'] },
    { name: 'dither', label: 'Scatter greys', isSwitch: true, for: ['picture'] },
    { name: 'wide', label: 'Strokes as wide as drawn', isSwitch: true, for: ['drawing'] },
    { name: 'support', label: 'Add support by head b', isSwitch: true, isOn: true, needsB: true, for: ['cells', 'picture', 'drawing', 'mesh', 'text'] },
    {
        name: 'overprint',
        label: 'A cell may be passed twice',
        isSwitch: true,
        isOn: true,
        needsOverprint: true,
        for: ['cells', 'picture', 'drawing', 'mesh', 'text'],
    },
];

export class Choose {
    /** @param panel what the program says of itself and the machine; @param deeds planned(job) and trouble(what) */
    constructor(panel, deeds) {
        this.panel = panel;
        this.deeds = deeds;
        this.source = null;
        this.isPlanning = false;
        this.mayPlan = true;
        at('example').append(...panel.examples.map(({ name, kind }) => make('option', { value: name, text: `${name} (${kind})` })));
        at('example').addEventListener('change', event => event.target.value && this.choose({ example: event.target.value, kind: kindOf(event.target.value) }));
        at('file').addEventListener('change', event => event.target.files.length > 0 && this.chooseFile(event.target.files[0]));
        at('words').addEventListener('change', event => event.target.value.trim() && this.choose({ text: event.target.value, kind: 'text' }));
        at('options').addEventListener('submit', event => {
            event.preventDefault();
            this.plan();
        });
        this.listenForDrops();
    }

    listenForDrops() {
        const drop = at('drop');
        // The whole page takes it: a file that misses the frame must not make the browser leave the page in mid-run.
        addEventListener('dragover', event => {
            event.preventDefault();
            drop.classList.add('is-over');
        });
        addEventListener('dragleave', event => event.relatedTarget === null && drop.classList.remove('is-over'));
        addEventListener('drop', event => {
            event.preventDefault();
            drop.classList.remove('is-over');
            const files = event.dataTransfer.files;
            if (!this.mayPlan || files.length === 0) return;
            if (files.length > 1) this.deeds.trouble(new Trouble('One file at a time', `Found ${files.length}. Drop the one that is to be planned.`));
            else this.chooseFile(files[0]);
        });
    }

    chooseFile(file) {
        const kind = kindOf(file.name);
        const most = this.panel.mostUploadBytes;
        if (file.size > most) {
            this.deeds.trouble(
                new Trouble('The file is too large', '', [
                    {
                        place: file.name,
                        found: `${grouped(file.size)} bytes`,
                        allowed: `up to ${grouped(most)} bytes`,
                        action: 'Make it smaller, or plan it with bridge plan.',
                    },
                ]),
            );
        } else if (file.size === 0) {
            this.deeds.trouble(
                new Trouble('The file is empty', '', [{ place: file.name, found: '0 bytes', allowed: 'a shape', action: 'Choose another file.' }]),
            );
        } else {
            this.choose({ file, kind });
        }
    }

    choose(source) {
        this.source = source;
        if (!source.file) at('file').value = '';
        if (!source.example) at('example').value = '';
        if (!source.text) at('words').value = '';
        const name = source.file?.name ?? source.example ?? 'the text';
        const { machine } = this.panel;
        const shown = fields.filter(
            field =>
                field.for.includes(source.kind ?? 'cells') && (!field.needsB || machine.heads.includes('b')) && (!field.needsOverprint || machine.mayOverprint),
        );
        const written = this.written();
        at('options').replaceChildren(
            make('div', { class: 'fields' }, ...shown.filter(field => !field.isSwitch).map(field => textField(field, written))),
            make('div', { class: 'switches' }, ...shown.filter(field => field.isSwitch).map(field => switchField(field, written))),
            make('button', { class: 'main-deed', id: 'plan-it', text: source.kind === 'job' ? 'Open it' : 'Plan it' }),
        );
        say(at('options-title'), source.kind === 'job' ? `The job ${name}` : `How to plan ${name}`);
        at('options-fold').hidden = false;
        at('options-fold').open = true;
        this.showWhetherBusy();
        at('plan-it').focus();
    }

    // What was written for the shape before is offered for the next one too, where it makes sense for it.
    written() {
        return Object.fromEntries(
            [...at('options').elements].filter(input => input.name).map(input => [input.name, input.type === 'checkbox' ? input.checked : input.value]),
        );
    }

    query() {
        const query = new URLSearchParams();
        const { file, example, text } = this.source;
        if (file) query.set('name', file.name);
        else if (example) query.set('example', example);
        else query.set('text', text.replaceAll('\\n', '\n'));
        for (const [name, value] of Object.entries(this.written())) {
            if (value === true || value === false) query.set(name, value);
            else if (value.trim() !== '') query.set(name, value.trim());
        }
        return query;
    }

    async plan() {
        if (this.isPlanning) return;
        this.isPlanning = true;
        this.showWhetherBusy();
        say(at('planning'), 'Planning, at most a minute …');
        try {
            this.deeds.planned(await postFile(`/api/job?${this.query()}`, this.source.file, planMs));
        } catch (trouble) {
            this.deeds.trouble(trouble);
        } finally {
            this.isPlanning = false;
            say(at('planning'), '');
            this.showWhetherBusy();
        }
    }

    /** Whether this page may plan now: it holds the controls and the program is heard. */
    allow(mayPlan) {
        if (mayPlan === this.mayPlan) return;
        this.mayPlan = mayPlan;
        this.showWhetherBusy();
    }

    showWhetherBusy() {
        for (const input of [at('file'), at('example'), at('words')]) input.disabled = !this.mayPlan || this.isPlanning;
        const button = document.getElementById('plan-it');
        if (button !== null) button.disabled = !this.mayPlan || this.isPlanning;
    }
}

function kindOf(name) {
    return kinds[name.split('.').pop().toLowerCase()] ?? null;
}

function textField({ name, label, hint }, written) {
    return make(
        'p',
        {},
        make('label', { for: `option-${name}`, text: label }),
        make('input', {
            id: `option-${name}`,
            name,
            type: 'text',
            maxlength: 60,
            spellcheck: 'false',
            autocomplete: 'off',
            value: written[name] ?? '',
            'aria-describedby': `hint-${name}`,
        }),
        make('span', { id: `hint-${name}`, class: 'hint', text: hint }),
    );
}

function switchField({ name, label, isOn = false }, written) {
    return make('label', {}, make('input', { name, type: 'checkbox', checked: written[name] ?? isOn }), label);
}
