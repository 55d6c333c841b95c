// The sheet: one layer large, or the whole as a solid, with the ladder of all layers beside it.

import { at, mark, say } from './elements.js';
import { Ladder } from './ladder.js';
import { Layers } from './layers.js';
import { Picture } from './picture.js';
import { Solid } from './solid/solid.js';
import { counted, grouped } from './words.js';

export class Sheet {
    /** @param deeds trouble(what) */
    constructor(machine, deeds) {
        const grid = { x: machine.gridX, y: machine.gridY };
        this.deeds = deeds;
        this.layers = new Layers();
        this.picture = new Picture(grid);
        this.ladder = new Ladder(grid, this.layers, layer => this.pick(layer));
        this.solid = new Solid(machine, this.layers);
        this.job = null;
        this.run = null;
        this.refused = []; // cells that the last refusal was about
        this.chosen = 0;
        this.shown = null; // the layer that the picture has, once it is fetched
        this.isFollowing = true;
        this.isSolid = false;
        this.slider = at('layer');
        this.slider.addEventListener('input', () => this.pick(Number(this.slider.value)));
        at('follow').addEventListener('click', () => this.setFollowing(!this.isFollowing));
        at('flat').addEventListener('click', () => this.showSolid(false));
        at('whole').addEventListener('click', () => this.showSolid(true));
        document.body.style.setProperty('--aspect', grid.x / grid.y);
        document.body.classList.toggle('has-b', machine.heads.includes('b'));
        this.showJob(null);
    }

    /** Another job is at hand, or none. */
    showJob(job) {
        this.job = job;
        this.refused = [];
        this.shown = null;
        this.layers.forget(job);
        this.ladder.showJob(job);
        this.last = Math.max(0, ...(job?.layers ?? []).map(layer => layer.layer));
        this.slider.max = this.last;
        for (const part of [this.slider, this.slider.previousElementSibling]) part.hidden = this.last === 0;
        this.choose(this.isSolid ? this.last : (job?.layers[0]?.layer ?? 0));
    }

    /** Marks the cells that a refusal was about. */
    showRefused(cells) {
        this.refused = cells;
        if (cells.length === 0) return;
        this.showSolid(false);
        this.choose(cells[0].layer);
    }

    /** The run of this job goes on, or has ended; null where there is none. */
    showRun(run) {
        const ofJob = run !== null && run.jobId === this.job?.id ? run : null;
        const began = this.run === null && ofJob !== null;
        const ended = this.run !== null && ofJob === null;
        this.run = ofJob;
        at('follow').hidden = ofJob === null || ofJob.end !== null || this.last === 0;
        if (began) this.setFollowing(true);
        if (ofJob !== null && this.isFollowing && !this.isSolid && ofJob.layer !== this.chosen && this.layers.has.has(ofJob.layer)) this.choose(ofJob.layer);
        else if (began || ended) this.fetch();
        else this.showProgress();
    }

    setFollowing(isFollowing) {
        this.isFollowing = isFollowing;
        mark(at('follow'), 'aria-pressed', isFollowing);
        if (isFollowing && this.run !== null) this.choose(this.run.layer);
    }

    /** A person chose a layer. */
    pick(layer) {
        if (this.run !== null) this.setFollowing(false);
        this.choose(layer);
    }

    choose(layer) {
        this.chosen = layer;
        this.slider.value = layer;
        this.slider.setAttribute('aria-valuetext', `layer ${layer}`);
        say(at('layer-number'), `${layer} of ${this.last}`);
        this.ladder.choose(layer);
        this.fetch();
    }

    async fetch() {
        const { job, chosen } = this;
        say(at('sheet-title'), this.isSolid ? 'Solid' : this.last === 0 ? 'The work' : `Layer ${chosen}`);
        if (this.isSolid) {
            this.solid.show(job, chosen);
            return;
        }
        try {
            const layer = await this.layers.get(chosen);
            if (this.job !== job || this.chosen !== chosen) return;
            this.shown = chosen;
            const faults = [...(job?.faults ?? []), ...(job?.cautions ?? [])]
                .flatMap(found => found.cells)
                .concat(this.refused)
                .filter(cell => cell.layer === chosen);
            this.picture.showLayer(layer, this.worked(), faults);
            this.showProgress();
        } catch (trouble) {
            this.deeds.trouble(trouble);
        }
    }

    // How many cells of the chosen layer the run has worked; null where the plan is shown.
    worked() {
        if (this.run === null) return null;
        const layer = this.job.layers.find(found => found.layer === this.chosen);
        return layer === undefined ? 0 : Math.min(Math.max(this.run.cells - layer.firstCell, 0), layer.cells);
    }

    showProgress() {
        if (this.shown !== this.chosen || this.isSolid) return;
        const worked = this.worked();
        this.picture.showWorked(worked);
        const { run } = this;
        this.picture.showHead(run !== null && run.end === null && run.layer === this.chosen ? { x: run.x, y: run.y, working: run.working } : null);
        this.picture.describe(this.words(worked));
    }

    words(worked) {
        const layer = this.job?.layers.find(found => found.layer === this.chosen);
        if (this.job === null) return 'No job yet: an empty grid';
        if (layer === undefined) return `Layer ${this.chosen}: empty`;
        const heads = layer.cellsB > 0 ? `, head a ${grouped(layer.cellsA)}, head b ${grouped(layer.cellsB)}` : '';
        return `Layer ${layer.layer} from above: ${counted(layer.cells, 'cell')}${heads}${worked === null ? '' : `, ${grouped(worked)} of them worked`}`;
    }

    showSolid(isSolid) {
        if (isSolid === this.isSolid) return;
        this.isSolid = isSolid;
        at('solid').hidden = !isSolid;
        at('picture').hidden = isSolid;
        mark(at('whole'), 'aria-pressed', isSolid);
        mark(at('flat'), 'aria-pressed', !isSolid);
        say(at('layer-what'), isSolid ? 'Cut above layer' : 'Layer');
        this.choose(isSolid ? this.last : this.chosen);
    }
}
