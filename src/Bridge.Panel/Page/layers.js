// The cells of a job's layers, fetched when they are shown and kept while there is room.

import { getOctets } from './api.js';

const mostKept = 12_000_000; // cells, four octets each

/** One layer's cells in working order; each is x, y and the head in one number. */
export class Layer {
    constructor(octets) {
        const view = new DataView(octets);
        this.cells = Uint32Array.from({ length: octets.byteLength >> 2 }, (_, index) => view.getUint32(index * 4, true));
    }

    get count() {
        return this.cells.length;
    }

    x(index) {
        return this.cells[index] & 0xffff;
    }

    y(index) {
        return (this.cells[index] >>> 16) & 0x7fff;
    }

    isB(index) {
        return this.cells[index] >>> 31 === 1;
    }
}

const empty = new Layer(new ArrayBuffer(0));

export class Layers {
    constructor() {
        this.forget(null);
    }

    /** Forgets what is kept: there is another job now, or none. */
    forget(job) {
        this.job = job;
        this.has = new Set(job?.layers.map(layer => layer.layer));
        this.kept = new Map(); // layer -> Layer, the one that was used longest ago first
        this.asked = new Map(); // layer -> promise, so that a layer is asked for once
        this.cells = 0;
    }

    /** A layer of the present job, empty where nothing is on it. */
    async get(number) {
        if (!this.has.has(number)) return empty;
        const kept = this.kept.get(number);
        if (kept === undefined) return this.fetch(number);
        this.kept.delete(number);
        this.kept.set(number, kept);
        return kept;
    }

    fetch(number) {
        const under = this.asked.get(number);
        if (under !== undefined) return under;
        const { job, asked } = this;
        const coming = getOctets(`/api/job/layers/${number}`, 60_000)
            .then(octets => {
                const layer = new Layer(octets);
                if (this.job === job) this.keep(number, layer);
                return layer;
            })
            .finally(() => asked.delete(number));
        asked.set(number, coming);
        return coming;
    }

    keep(number, layer) {
        this.kept.set(number, layer);
        this.cells += layer.count;
        for (const [oldest, { count }] of this.kept) {
            if (this.cells <= mostKept || oldest === number) break;
            this.kept.delete(oldest);
            this.cells -= count;
        }
    }
}
