// Draws a solid where there is no WebGL 2: on a plain canvas, row by row from the farthest to the nearest, so that what is nearer covers what is behind it.

import { sides } from './faces.js';
import { shades, viewOf } from './scene.js';

export class PlainScene {
    constructor(canvas) {
        this.canvas = canvas;
        this.on = canvas.getContext('2d');
        this.mostCells = 1 << 18; // each is looked at for each picture
        this.mostFaces = 5_000; // on two busy cores some 3 000 turn at 20 frames a second
    }

    /** Takes all faces of a solid, of which only its volume is drawn, and the pitch of its cells in mm. */
    take({ volume }, pitch) {
        const { x, y, layers } = volume;
        Object.assign(this, { volume, pitch });
        this.middle = [x / 2, y / 2, layers / 2];
        this.radius = Math.hypot(x * pitch[0], y * pitch[1], layers * pitch[2]) / 2;
        this.cut(layers - 1);
    }

    /** Cuts above a layer of the volume. */
    cut(layer) {
        this.top = layer;
    }

    clear() {
        this.on.clearRect(0, 0, this.canvas.width, this.canvas.height);
    }

    /** Draws it turned: `yaw` about Z and `tilt` from the level, in radians, as large as `size`, in inks of three numbers from 0 to 1. */
    draw({ yaw, tilt, size }, inks) {
        const { canvas, on, middle, pitch, radius, top, volume } = this;
        this.clear();
        const [right, up, towards] = viewOf(yaw, tilt);
        const scale = ((size / radius) * Math.min(canvas.width, canvas.height)) / 2;
        this.steps = pitch.map((mm, axis) => [right[axis] * mm * scale, -up[axis] * mm * scale]); // of one cell along each axis, in pixels
        this.start = [canvas.width, canvas.height].map((all, way) => all / 2 - middle.reduce((sum, cells, axis) => sum + cells * this.steps[axis][way], 0));
        on.lineJoin = 'round';
        this.outline([0, 0, 0], [volume.x, 0, 0], [0, volume.y, 0]);
        on.strokeStyle = shaded(inks.bed, 1);
        on.stroke();
        // In the order of the sides: in a row a front may cover a wall, and a lid both, but not the other way round.
        const seen = sides.map((side, index) => lit(side, shades[index], inks)).filter(({ normal }) => dot(normal, towards) > 0);
        for (const z of farFirst(top + 1, towards[2])) {
            for (const y of farFirst(volume.y, towards[1])) {
                for (const side of seen) this.drawRow(side, y, z, towards[0] < 0);
            }
        }
    }

    // Open faces of one side in a row along X, those that lie in a line as one.
    drawRow(side, y, z, isReversed) {
        const columns = this.volume.x;
        const [dx, dy, dz] = side.normal;
        for (let index = 0, begin = 0, head = 0; index <= columns; index++) {
            const x = isReversed ? columns - 1 - index : index;
            const worked = index < columns ? this.headAt(x, y, z) : 0;
            const here = worked !== 0 && this.headAt(x + dx, y + dy, z + dz) === 0 ? worked : 0;
            if (here === head) continue;
            if (head !== 0) this.drawFace(side, isReversed ? columns - index : begin, y, z, index - begin, head);
            [begin, head] = [index, here];
        }
    }

    drawFace({ normal, isPlus, along, across, fills, edges }, x, y, z, length, head) {
        const { on } = this;
        const corner = [x, y, z].map((cell, axis) => cell + (normal[axis] === 0 ? 0 : isPlus));
        this.outline(corner, along.map(part => part * length), across);
        on.fillStyle = fills[head];
        on.fill();
        on.strokeStyle = edges[head];
        on.stroke();
    }

    outline(corner, along, across) {
        const { on } = this;
        const [[x, y], [alongX, alongY], [acrossX, acrossY]] = [corner, along, across].map(way => this.pixelsOf(way));
        const [left, above] = [this.start[0] + x, this.start[1] + y];
        on.beginPath();
        on.moveTo(left, above);
        on.lineTo(left + alongX, above + alongY);
        on.lineTo(left + alongX + acrossX, above + alongY + acrossY);
        on.lineTo(left + acrossX, above + acrossY);
        on.closePath();
    }

    pixelsOf(cells) {
        return [0, 1].map(way => cells.reduce((sum, count, axis) => sum + count * this.steps[axis][way], 0));
    }

    // Which head worked a cell: 0 for none, and also outside and above the cut.
    headAt(x, y, z) {
        const { volume } = this;
        return x < 0 || y < 0 || z < 0 || x >= volume.x || y >= volume.y || z > this.top ? 0 : volume.cells[z * volume.area + y * volume.x + x];
    }
}

// A side with the colours of its faces and of their edges: edges like the face close the gaps between faces, darker ones tell head b.
function lit(side, shade, { a, b }) {
    return { ...side, fills: [null, shaded(a, shade), shaded(b, shade)], edges: [null, shaded(a, shade), shaded(b, shade * 0.72)] };
}

// All numbers below a count, those first that are farther where larger ones lie towards the reader, or away.
function farFirst(count, towards) {
    return Array.from({ length: count }, (_, index) => (towards < 0 ? count - 1 - index : index));
}

function dot(one, other) {
    return one.reduce((sum, part, axis) => sum + part * other[axis], 0);
}

function shaded(ink, light) {
    return `rgb(${ink.map(part => Math.round(255 * part * light)).join()})`;
}
