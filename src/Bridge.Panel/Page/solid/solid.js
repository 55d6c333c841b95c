// The whole as a solid that can be turned and cut: fetches the layers, makes their faces, and draws when something changed.

import { at, make, mark, say } from '../elements.js';
import { ink, onInkChange } from '../inks.js';
import { counted, grouped } from '../words.js';
import { Faces, Volume } from './faces.js';
import { PlainScene } from './plain-scene.js';
import { Scene, viewOf } from './scene.js';

const first = { yaw: -0.55, tilt: 0.5, size: 0.95 };

export class Solid {
    constructor({ gridX, gridY, layers, pitchMm }, layersOfJob) {
        this.grid = { x: gridX, y: gridY, layers };
        this.pitch = [pitchMm.x, pitchMm.y, pitchMm.z ?? pitchMm.x];
        this.layersOfJob = layersOfJob;
        this.canvas = at('solid-canvas');
        this.view = { ...first };
        this.job = null;
        this.made = null;
        this.letters = ['X', 'Y'].map(text => make('span', { class: 'axis-letter', text, 'aria-hidden': 'true' }));
        at('solid').append(...this.letters);
        this.listen();
        onInkChange(() => this.redraw());
        new ResizeObserver(() => this.resize()).observe(at('solid'));
    }

    listen() {
        const turns = { left: { yaw: -0.2 }, right: { yaw: 0.2 }, up: { tilt: 0.15 }, down: { tilt: -0.15 }, near: { size: 1.2 }, far: { size: 1 / 1.2 } };
        const keys = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down', '+': 'near', '=': 'near', '-': 'far', Home: 'home' };
        const turn = name => (name === 'home' ? this.look(first) : this.turn(turns[name]));
        for (const button of document.querySelectorAll('[data-turn]')) button.addEventListener('click', () => turn(button.dataset.turn));
        this.canvas.addEventListener('keydown', event => {
            const name = keys[event.key];
            if (name === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
            event.preventDefault();
            turn(name);
        });
        this.canvas.addEventListener('pointerdown', event => this.canvas.setPointerCapture(event.pointerId));
        this.canvas.addEventListener('pointermove', event => {
            if (this.canvas.hasPointerCapture(event.pointerId)) this.turn({ yaw: event.movementX * 0.008, tilt: event.movementY * 0.006 });
        });
        this.canvas.addEventListener('webglcontextlost', event => event.preventDefault());
        this.canvas.addEventListener('webglcontextrestored', () => {
            this.scene = undefined;
            this.made = null;
            this.show(this.job, this.top);
        });
    }

    turn({ yaw = 0, tilt = 0, size = 1 }) {
        this.look({
            yaw: this.view.yaw + yaw,
            tilt: Math.min(Math.PI / 2, Math.max(-Math.PI / 2, this.view.tilt + tilt)),
            size: Math.min(8, Math.max(0.4, this.view.size * size)),
        });
    }

    look(view) {
        this.view = { ...view };
        this.redraw();
    }

    /** Shows a job cut above a layer. Fetches and reckons only the first time. */
    async show(job, top) {
        this.job = job;
        this.top = top;
        this.scene ??= Scene.make(this.canvas) ?? new PlainScene(this.canvas);
        if (this.made !== job?.id) await this.make(job);
        if (this.made !== null && this.faces !== undefined) this.cut(this.top);
    }

    async make(job) {
        this.made = job?.id ?? null;
        this.faces = undefined;
        mark(this.canvas, 'data-drawn', null);
        this.redraw();
        if (job === null || this.isMaking === job.id) return;
        this.isMaking = job.id;
        try {
            const faces = await this.reckon(job);
            if (faces === null) return;
            this.faces = faces;
            const { by } = this;
            this.scene.take(
                faces,
                this.pitch.map(mm => mm * by),
            );
            mark(
                this.canvas,
                'aria-label',
                `The whole as a solid: ${counted(job.cells, 'cell')} on ${counted(job.layers.length, 'layer')}. `
                    + 'Arrow keys turn it, plus and minus make it larger and smaller',
            );
            say(
                at('solid-words'),
                by === 1
                    ? 'Drag it, or use the arrow keys. The line is the bed.'
                    : `Too fine to turn smoothly: blocks of ${by} × ${by} × ${by} cells are shown as one, worked where any of them is.`,
            );
            this.resize();
        } catch (trouble) {
            this.made = null;
            say(at('solid-words'), `The layers could not be had: ${trouble.message}`);
        } finally {
            this.isMaking = null;
        }
    }

    // Null where another job came meanwhile.
    async reckon(job) {
        const { x, y } = this.grid;
        const layers = Math.max(...job.layers.map(layer => layer.layer), 0) + 1;
        this.by = 1;
        while (Math.ceil(x / this.by) * Math.ceil(y / this.by) * Math.ceil(layers / this.by) > this.scene.mostCells) this.by *= 2;
        const { by } = this;
        let volume = new Volume(Math.ceil(x / by), Math.ceil(y / by), Math.ceil(layers / by));
        for (const [index, { layer }] of job.layers.entries()) {
            if (index % 8 === 0) say(at('solid-words'), `Fetching layer ${grouped(index + 1)} of ${grouped(job.layers.length)} …`);
            volume.put(await this.layersOfJob.get(layer), layer, by);
            if (this.job?.id !== job.id) return null;
        }
        for (;;) {
            const faces = new Faces(volume);
            while (faces.count <= this.scene.mostFaces && faces.addLayer()) await new Promise(resolve => setTimeout(resolve));
            if (this.job?.id !== job.id) return null;
            if (faces.count <= this.scene.mostFaces) return faces;
            volume = volume.halved();
            this.by *= 2;
        }
    }

    cut(top) {
        const layer = Math.min(Math.floor(top / this.by), this.faces.volume.layers - 1);
        if (this.scene.top !== layer) this.scene.cut(layer);
        this.redraw();
    }

    resize() {
        const { clientWidth: width } = at('solid');
        if (width === 0) return;
        const height = Math.round(Math.min(width * 0.8, Math.max(260, innerHeight * 0.62)));
        const ratio = Math.min(devicePixelRatio || 1, 2);
        this.canvas.width = width * ratio;
        this.canvas.height = height * ratio;
        this.canvas.style.height = `${height}px`;
        this.redraw();
    }

    redraw() {
        if (this.isDue || !this.scene || this.canvas.width === 0) return;
        this.isDue = true;
        requestAnimationFrame(() => {
            this.isDue = false;
            this.draw();
        });
    }

    draw() {
        for (const letter of this.letters) letter.hidden = this.faces === undefined;
        if (this.faces === undefined) {
            this.scene.clear();
            return;
        }
        this.scene.draw(this.view, { a: numbers(ink()['head-a']), b: numbers(ink()['head-b']), bed: numbers(ink()['soft-ink']) });
        this.placeLetters();
        mark(this.canvas, 'data-drawn', this.made);
    }

    placeLetters() {
        const {
            volume: { x, y },
        } = this.faces;
        const [right, up] = viewOf(this.view.yaw, this.view.tilt);
        const { clientWidth: width, clientHeight: height } = this.canvas;
        const scale = ((this.view.size / this.scene.radius) * Math.min(width, height)) / 2;
        [
            [x + x / 20, 0, 0],
            [0, y + y / 20, 0],
        ].forEach((place, index) => {
            const from = place.map((value, axis) => (value - this.scene.middle[axis]) * this.scene.pitch[axis]);
            const [across, above] = [right, up].map(way => way.reduce((sum, part, axis) => sum + part * from[axis], 0) * scale);
            this.letters[index].style.transform =
                `translate(${this.canvas.offsetLeft + width / 2 + across - 6}px, ${this.canvas.offsetTop + height / 2 - above - 10}px)`;
        });
    }
}

// #rrggbb as three numbers from 0 to 1.
function numbers(colour) {
    return [1, 3, 5].map(at => parseInt(colour.slice(at, at + 2), 16) / 255);
}
