// The picture of one layer, seen from above: y grows away from the reader. Head a fills its cells, head b leaves rings.

import { at, mark } from './elements.js';
import { ink, onInkChange } from './inks.js';

const margin = 26; // for the numbers at the axes, in pixels of the page
const gridFrom = 6; // pixels of a cell from which its borders are drawn
const mostMarks = 200;

export class Picture {
    constructor(grid) {
        this.grid = grid;
        this.base = at('cells');
        this.over = at('marks');
        this.layer = null;
        this.drawn = 0;
        this.worked = null; // cells of this layer that are worked, null where nothing runs
        this.head = null;
        this.faults = [];
        new ResizeObserver(() => this.resize()).observe(at('picture'));
        onInkChange(() => this.redraw());
    }

    /** Shows a layer: how many of its cells are worked, or null for the plan of it; and its faults. */
    showLayer(layer, worked, faults) {
        this.layer = layer;
        this.worked = worked;
        this.faults = faults.slice(0, mostMarks);
        this.redraw();
    }

    /** More cells of the layer are worked: draws those alone. */
    showWorked(worked) {
        if (worked === this.worked || this.layer === null) return;
        if (this.worked === null || worked === null || worked < this.drawn) {
            this.worked = worked;
            this.redraw();
            return;
        }
        this.worked = worked;
        this.drawCells(this.base.getContext('2d'), this.drawn, Math.min(worked, this.layer.count), true);
        this.drawn = worked;
    }

    /** Where the head is on this layer: {x, y, working}; null where it is not on it. */
    showHead(head) {
        const same = JSON.stringify(head) === JSON.stringify(this.head);
        this.head = head;
        if (!same) this.drawMarks();
    }

    /** What stands in the picture, in words. */
    describe(words) {
        mark(this.base, 'aria-label', words);
    }

    resize() {
        const { clientWidth: width } = at('picture');
        if (width === 0) return;
        const most = Math.max(240, innerHeight * 0.72);
        this.scale = Math.min((width - margin - 8) / this.grid.x, (most - margin - 8) / this.grid.y);
        this.size = { width: Math.ceil(this.grid.x * this.scale + margin + 8), height: Math.ceil(this.grid.y * this.scale + margin + 8) };
        this.ratio = Math.min(devicePixelRatio || 1, 3);
        for (const canvas of [this.base, this.over]) {
            canvas.width = this.size.width * this.ratio;
            canvas.height = this.size.height * this.ratio;
            canvas.style.width = `${this.size.width}px`;
            canvas.style.height = `${this.size.height}px`;
        }
        this.redraw();
    }

    redraw() {
        if (this.size === undefined) return;
        const on = this.start(this.base);
        on.fillStyle = ink().sheet;
        on.fillRect(this.left(0), this.top(this.grid.y - 1), this.grid.x * this.scale, this.grid.y * this.scale);
        this.drawGrid(on);
        if (this.layer !== null) {
            const worked = this.worked === null ? this.layer.count : Math.min(this.worked, this.layer.count);
            this.drawCells(on, worked, this.layer.count, false);
            this.drawCells(on, 0, worked, true);
            this.drawn = worked;
        }
        this.drawMarks();
    }

    start(canvas) {
        const on = canvas.getContext('2d');
        on.setTransform(this.ratio, 0, 0, this.ratio, 0, 0);
        on.clearRect(0, 0, this.size.width, this.size.height);
        return on;
    }

    left(x) {
        return margin + x * this.scale;
    }

    top(y) {
        return 4 + (this.grid.y - 1 - y) * this.scale;
    }

    drawGrid(on) {
        const { x: columns, y: rows } = this.grid;
        const [right, bottom] = [this.left(columns), this.top(-1)];
        on.strokeStyle = ink().rule;
        on.lineWidth = 1;
        const step = this.scale >= gridFrom ? 1 : Math.ceil((gridFrom * 4) / this.scale / 8) * 8;
        on.beginPath();
        for (let x = 0; x <= columns; x += step) line(on, this.left(x), this.top(rows - 1), this.left(x), bottom);
        for (let y = 0; y <= rows; y += step) line(on, this.left(0), this.top(y - 1), right, this.top(y - 1));
        on.stroke();
        on.strokeStyle = ink()['soft-ink'];
        on.strokeRect(this.left(0), this.top(rows - 1), columns * this.scale, rows * this.scale);
        this.drawNumbers(on);
    }

    drawNumbers(on) {
        on.fillStyle = ink()['soft-ink'];
        on.font = '11px ui-monospace, monospace';
        const apart = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].find(step => step * this.scale >= 28) ?? 1000;
        on.textAlign = 'center';
        on.textBaseline = 'top';
        for (let x = 0; x < this.grid.x; x += apart) on.fillText(String(x), this.left(x) + this.scale / 2, this.top(-1) + 5);
        on.textAlign = 'right';
        on.textBaseline = 'middle';
        for (let y = 0; y < this.grid.y; y += apart) on.fillText(String(y), margin - 4, this.top(y) + this.scale / 2);
    }

    drawCells(on, from, to, isWorked) {
        const { layer, scale } = this;
        const inset = scale >= gridFrom ? 1 : 0;
        const side = Math.max(scale - 2 * inset, 0.8);
        const [a, b] = isWorked ? [ink()['head-a'], ink()['head-b']] : [ink()['due-a'], ink()['due-b']];
        on.fillStyle = a;
        on.strokeStyle = b;
        on.lineWidth = isWorked ? Math.max(1, scale * 0.2) : Math.max(1, scale * 0.1);
        for (let index = from; index < to; index++) {
            const [left, top] = [this.left(layer.x(index)) + inset, this.top(layer.y(index)) + inset];
            if (!layer.isB(index)) on.fillRect(left, top, side, side);
            else if (scale < 5) fillWith(on, b, a, left, top, side);
            else ring(on, left + side / 2, top + side / 2, side / 2 - on.lineWidth / 2);
        }
    }

    drawMarks() {
        if (this.size === undefined) return;
        const on = this.start(this.over);
        for (const fault of this.faults) this.drawFault(on, fault);
        if (this.head !== null) this.drawHead(on, this.head);
    }

    drawFault(on, { x, y }) {
        const [middle, centre] = [this.left(x) + this.scale / 2, this.top(y) + this.scale / 2];
        const size = Math.max(7, this.scale * 0.45);
        on.beginPath();
        on.moveTo(middle, centre - size);
        on.lineTo(middle + size, centre + size * 0.8);
        on.lineTo(middle - size, centre + size * 0.8);
        on.closePath();
        on.fillStyle = ink().sheet;
        on.fill();
        on.strokeStyle = ink().fault;
        on.lineWidth = 2;
        on.stroke();
        on.fillStyle = ink().fault;
        on.font = `bold ${Math.round(size * 1.2)}px system-ui, sans-serif`;
        on.textAlign = 'center';
        on.textBaseline = 'middle';
        on.fillText('!', middle, centre + size * 0.15);
    }

    // Two lines across the whole sheet that meet at the head, as a draughtsman would find a place: seen from far, whatever is below.
    drawHead(on, { x, y, working }) {
        const [middle, centre] = [this.left(x) + this.scale / 2, this.top(y) + this.scale / 2];
        const radius = Math.max(5, this.scale * 0.6);
        on.strokeStyle = ink().here;
        on.lineWidth = 1;
        on.beginPath();
        line(on, this.left(0), centre, middle - radius, centre);
        line(on, middle + radius, centre, this.left(this.grid.x), centre);
        line(on, middle, this.top(this.grid.y - 1), middle, centre - radius);
        line(on, middle, centre + radius, middle, this.top(-1));
        on.stroke();
        on.lineWidth = 2.5;
        ring(on, middle, centre, radius);
        if (!working) return;
        on.fillStyle = ink().here;
        on.beginPath();
        on.arc(middle, centre, Math.max(2, radius * 0.35), 0, 2 * Math.PI);
        on.fill();
    }
}

function line(on, fromX, fromY, toX, toY) {
    on.moveTo(fromX, fromY);
    on.lineTo(toX, toY);
}

function ring(on, x, y, radius) {
    on.beginPath();
    on.arc(x, y, Math.max(radius, 0.5), 0, 2 * Math.PI);
    on.stroke();
}

// Too small for a ring: a square in the ink of the other head.
function fillWith(on, fill, back, left, top, side) {
    on.fillStyle = fill;
    on.fillRect(left, top, side, side);
    on.fillStyle = back;
}
