// Small pictures of all layers, one above the other as they lie in the work: the highest first.

import { at, make, mark } from './elements.js';
import { ink, onInkChange } from './inks.js';

const mostRungs = 512;

export class Ladder {
    /** @param pick called with the number of a layer that was chosen */
    constructor(grid, layers, pick) {
        this.grid = grid;
        this.layers = layers;
        this.pick = pick;
        this.list = at('ladder');
        this.rungs = new Map();
        this.seer = new IntersectionObserver(entries => entries.forEach(entry => this.see(entry)), { root: null, rootMargin: '200px' });
        this.list.addEventListener('keydown', event => this.move(event));
        onInkChange(() => this.rungs.forEach(rung => rung.isSeen && this.draw(rung)));
    }

    /** Shows the layers of a job; null for none. */
    showJob(job) {
        this.seer.disconnect();
        this.rungs.clear();
        const faulty = new Set((job?.faults ?? []).flatMap(fault => fault.cells.map(cell => cell.layer)));
        const shown = (job?.layers ?? []).slice(0, mostRungs).reverse();
        this.list.replaceChildren(...shown.map(layer => this.rung(layer, faulty.has(layer.layer))));
        this.list.hidden = shown.length < 2;
    }

    rung({ layer, bytes, cells }, isFaulty) {
        const canvas = make('canvas', { width: 1, height: 1, 'aria-hidden': 'true' });
        const element = make(
            'div',
            {
                role: 'option',
                tabindex: '-1',
                class: isFaulty ? 'rung is-faulty' : 'rung',
                'data-layer': layer,
                'aria-label': `layer ${layer}, ${cells} cells${bytes === null ? '' : `, ${bytes} bytes`}${isFaulty ? ', with faults' : ''}`,
                onclick: () => this.pick(layer),
            },
            canvas,
            make('span', { text: isFaulty ? `${layer} !` : layer, 'aria-hidden': 'true' }),
        );
        this.rungs.set(layer, { layer, element, canvas, isSeen: false });
        this.seer.observe(element);
        return element;
    }

    /** Marks the layer that is shown large. */
    choose(number) {
        for (const { layer, element } of this.rungs.values()) {
            const isChosen = layer === number;
            mark(element, 'aria-selected', isChosen);
            mark(element, 'tabindex', isChosen ? 0 : -1);
            if (isChosen) this.uncover(element);
        }
    }

    // Moves the ladder alone, never the page.
    uncover(element) {
        const { list } = this;
        list.scrollTop = element.offsetTop - list.offsetTop - list.clientHeight / 2;
        list.scrollLeft = element.offsetLeft - list.offsetLeft - list.clientWidth / 2;
    }

    move(event) {
        const all = [...this.rungs.keys()];
        const now = all.indexOf(Number(event.target.dataset.layer));
        const next = { ArrowUp: now - 1, ArrowLeft: now - 1, ArrowDown: now + 1, ArrowRight: now + 1, Home: 0, End: all.length - 1 }[event.key];
        if (next === undefined || now < 0) return;
        event.preventDefault();
        const layer = all[Math.min(Math.max(next, 0), all.length - 1)];
        this.pick(layer);
        this.rungs.get(layer).element.focus();
    }

    // A picture is there only while it can be seen: a job may have hundreds of layers.
    see({ target, isIntersecting }) {
        const rung = this.rungs.get(Number(target.dataset.layer));
        if (rung?.element !== target || rung.isSeen === isIntersecting) return;
        rung.isSeen = isIntersecting;
        if (isIntersecting) this.draw(rung);
        else rung.canvas.width = rung.canvas.height = 1;
    }

    async draw(rung) {
        const layer = await this.layers.get(rung.layer).catch(() => null);
        if (layer === null || !rung.isSeen) return;
        const { x: width, y: height } = this.grid;
        rung.canvas.width = width;
        rung.canvas.height = height;
        const on = rung.canvas.getContext('2d');
        for (const isB of [false, true]) {
            on.fillStyle = ink()[isB ? 'head-b' : 'head-a'];
            for (let index = 0; index < layer.count; index++) {
                if (layer.isB(index) === isB) on.fillRect(layer.x(index), height - 1 - layer.y(index), 1, 1);
            }
        }
    }
}
