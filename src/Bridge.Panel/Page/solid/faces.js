// The outer faces of a solid of cells, merged into long quads, layer by layer, so that a cut at any layer needs no new ones but its lid.

/** The six ways a face can look: its normal, the way it is long, and the way it is wide. */
export const sides = [
    { name: '+x', normal: [1, 0, 0], along: [0, 1, 0], across: [0, 0, 1], isPlus: 1 },
    { name: '-x', normal: [-1, 0, 0], along: [0, 1, 0], across: [0, 0, 1], isPlus: 0 },
    { name: '+y', normal: [0, 1, 0], along: [1, 0, 0], across: [0, 0, 1], isPlus: 1 },
    { name: '-y', normal: [0, -1, 0], along: [1, 0, 0], across: [0, 0, 1], isPlus: 0 },
    { name: '+z', normal: [0, 0, 1], along: [1, 0, 0], across: [0, 1, 0], isPlus: 1 },
    { name: '-z', normal: [0, 0, -1], along: [1, 0, 0], across: [0, 1, 0], isPlus: 0 },
];

/** Numbers of one face: x, y, z of its cell, its length, its width, and the head that worked it (1 a, 2 b). */
export const numbersPerFace = 6;

/** A growing list of faces of one side. */
export class FaceList {
    constructor() {
        this.numbers = new Uint16Array(numbersPerFace * 1024);
        this.count = 0;
    }

    add(x, y, z, length, width, head) {
        const at = this.count++ * numbersPerFace;
        if (at === this.numbers.length) {
            const larger = new Uint16Array(at * 2);
            larger.set(this.numbers);
            this.numbers = larger;
        }
        this.numbers.set([x, y, z, length, width, head], at);
    }

    get used() {
        return this.numbers.subarray(0, this.count * numbersPerFace);
    }
}

/** The cells of a solid: 0 empty, 1 worked by head a, 2 by head b. */
export class Volume {
    constructor(x, y, layers) {
        Object.assign(this, { x, y, layers });
        this.area = x * y;
        this.cells = new Uint8Array(this.area * layers);
    }

    /** Puts a layer's cells in; `by` cells of each axis become one. */
    put(layer, number, by) {
        const start = Math.floor(number / by) * this.area;
        for (let index = 0; index < layer.count; index++) {
            this.cells[start + Math.floor(layer.y(index) / by) * this.x + Math.floor(layer.x(index) / by)] = layer.isB(index) ? 2 : 1;
        }
    }

    /** The same with blocks of 2 x 2 x 2 cells as one: worked where any of them is. */
    halved() {
        const half = new Volume(Math.ceil(this.x / 2), Math.ceil(this.y / 2), Math.ceil(this.layers / 2));
        for (let z = 0, at = 0; z < this.layers; z++) {
            for (let y = 0; y < this.y; y++) {
                const row = (z >> 1) * half.area + (y >> 1) * half.x;
                for (let x = 0; x < this.x; x++, at++) {
                    if (this.cells[at] !== 0) half.cells[row + (x >> 1)] = this.cells[at];
                }
            }
        }
        return half;
    }
}

/** All outer faces of a volume. `ends[side][z]` is how many faces of a side there are up to layer z and with it. */
export class Faces {
    constructor(volume) {
        this.volume = volume;
        this.lists = sides.map(() => new FaceList());
        this.ends = sides.map(() => new Uint32Array(volume.layers));
        this.next = 0;
    }

    get count() {
        return this.lists.reduce((sum, list) => sum + list.count, 0);
    }

    /** Adds the faces of the next layer; false where there is none. */
    addLayer() {
        const z = this.next;
        if (z === this.volume.layers) return false;
        this.addWalls(z, 0, 1);
        this.addWalls(z, 1, -1);
        this.addFronts(z, 2, 1);
        this.addFronts(z, 3, -1);
        const { cells, area } = this.volume;
        addLids(this.volume, z, this.lists[4], at => z === this.volume.layers - 1 || cells[at + area] === 0);
        addLids(this.volume, z, this.lists[5], at => z === 0 || cells[at - area] === 0);
        this.lists.forEach((list, side) => {
            this.ends[side][z] = list.count;
        });
        this.next++;
        return true;
    }

    // Faces that look along X: runs of cells along Y.
    addWalls(z, side, step) {
        const { x: columns, y: rows, area, cells } = this.volume;
        for (let x = 0; x < columns; x++) {
            const isEdge = step > 0 ? x === columns - 1 : x === 0;
            for (let y = 0, begin = 0, head = 0; y <= rows; y++) {
                const at = z * area + y * columns + x;
                const here = y < rows && (isEdge || cells[at + step] === 0) ? cells[at] : 0;
                if (here === head) continue;
                if (head !== 0) this.lists[side].add(x, begin, z, y - begin, 1, head);
                [begin, head] = [y, here];
            }
        }
    }

    // Faces that look along Y: runs of cells along X.
    addFronts(z, side, step) {
        const { x: columns, y: rows, area, cells } = this.volume;
        for (let y = 0; y < rows; y++) {
            const isEdge = step > 0 ? y === rows - 1 : y === 0;
            for (let x = 0, begin = 0, head = 0; x <= columns; x++) {
                const at = z * area + y * columns + x;
                const here = x < columns && (isEdge || cells[at + step * columns] === 0) ? cells[at] : 0;
                if (here === head) continue;
                if (head !== 0) this.lists[side].add(begin, y, z, x - begin, 1, head);
                [begin, head] = [x, here];
            }
        }
    }

    /** The lid of a cut: all cells of a layer, seen from above. */
    lid(z) {
        const list = new FaceList();
        addLids(this.volume, z, list, () => true);
        return list;
    }
}

// Runs along X; a run that lies just as the one in the row before does makes that one wider.
function addLids(volume, z, list, isOpen) {
    const { x: columns, y: rows, area, cells } = volume;
    let before = new Map();
    for (let y = 0; y < rows; y++) {
        const now = new Map();
        for (let x = 0, begin = 0, head = 0; x <= columns; x++) {
            const at = z * area + y * columns + x;
            const here = x < columns && cells[at] !== 0 && isOpen(at) ? cells[at] : 0;
            if (here === head) continue;
            if (head !== 0) addRun(list, before, now, begin, y, z, x - begin, head);
            [begin, head] = [x, here];
        }
        before = now;
    }
}

function addRun(list, before, now, x, y, z, length, head) {
    const run = (x * 4096 + length) * 4 + head;
    const face = before.get(run);
    if (face === undefined) {
        now.set(run, list.count);
        list.add(x, y, z, length, 1, head);
    } else {
        now.set(run, face);
        list.numbers[face * numbersPerFace + 4]++;
    }
}
