// Draws faces with WebGL 2, seen from afar without perspective, so that what is equally long is drawn equally long.

import { numbersPerFace, sides } from './faces.js';

const vertexCode = `#version 300 es
precision highp float;
layout(location = 0) in uvec4 corner; // x, y, z; then the head that worked it, and which corner of its face it is, from bit 2 on
uniform vec3 along, across, middle, pitch;
uniform mat3 turn;
uniform vec2 zoom;
uniform float depth, grow;
out vec2 place;
out vec3 at;
flat out uint head;
void main() {
  // A third of a pixel larger all round: long faces lie beside short ones, and no gap may shine through.
  vec2 outwards = vec2((corner.w & 4u) != 0u ? grow : -grow, (corner.w & 8u) != 0u ? grow : -grow);
  at = vec3(corner.xyz) + along * outwards.x + across * outwards.y;
  place = vec2(dot(at, along), dot(at, across));
  vec3 seen = turn * ((at - middle) * pitch);
  head = corner.w & 3u;
  gl_Position = vec4(seen.xy * zoom, -seen.z * depth, 1.0);
}`;

const fragmentCode = `#version 300 es
precision highp float;
uniform vec3 inkA, inkB;
uniform float shade, lines;
in vec2 place;
in vec3 at;
flat in uint head;
out vec4 colour;
void main() {
  vec3 ink = head == 2u ? inkB : inkA;
  float light = shade;
  if (head == 2u && fract((at.x + at.y + at.z) * 0.5) < 0.3) light *= 0.72;
  if (lines > 0.0) {
    vec2 edge = abs(fract(place - 0.5) - 0.5);
    if (min(edge.x, edge.y) < lines) light *= 0.78;
  }
  colour = vec4(ink * light, 1.0);
}`;

const bedVertexCode = `#version 300 es
layout(location = 0) in vec3 at;
uniform vec3 middle, pitch;
uniform mat3 turn;
uniform vec2 zoom;
uniform float depth;
void main() {
  vec3 seen = turn * ((at - middle) * pitch);
  gl_Position = vec4(seen.xy * zoom, -seen.z * depth, 1.0);
}`;

const bedFragmentCode = `#version 300 es
precision highp float;
uniform vec3 ink;
out vec4 colour;
void main() { colour = vec4(ink, 1.0); }`;

/** How light each side is. */
export const shades = [0.86, 0.74, 0.8, 0.92, 1.0, 0.6];

export class Scene {
    /** @returns null where the browser cannot */
    static make(canvas) {
        const on = canvas.getContext('webgl2', { antialias: false, alpha: true, powerPreference: 'low-power' });
        return on === null ? null : new Scene(canvas, on);
    }

    constructor(canvas, on) {
        this.canvas = canvas;
        this.on = on;
        this.mostCells = 1 << 24; // of the volume, one octet each
        this.mostFaces = 75_000; // without a graphics card 68 000 turn at 35 frames a second on two cores at rest, 40 000 at 30 on busy ones
        this.solid = program(on, vertexCode, fragmentCode);
        this.bed = program(on, bedVertexCode, bedFragmentCode);
        this.sets = sides.map(() => this.newSet());
        this.lid = this.newSet();
        this.order = on.createBuffer(); // two triangles for each face, the same for every set
        this.mostOrdered = 0;
        this.bedSet = on.createBuffer();
        this.bedArray = on.createVertexArray();
        on.enable(on.DEPTH_TEST);
    }

    newSet() {
        const { on } = this;
        const set = { array: on.createVertexArray(), buffer: on.createBuffer(), count: 0 };
        on.bindVertexArray(set.array);
        on.bindBuffer(on.ARRAY_BUFFER, set.buffer);
        on.enableVertexAttribArray(0);
        on.vertexAttribIPointer(0, 4, on.UNSIGNED_SHORT, 0, 0);
        return set;
    }

    /** Takes all faces of a solid, the size of its volume, and the pitch of its cells in mm. */
    take(faces, pitch) {
        this.faces = faces;
        this.pitch = pitch;
        faces.lists.forEach((list, side) => this.fill(this.sets[side], list, sides[side]));
        const { x, y, layers } = faces.volume;
        this.middle = [x / 2, y / 2, layers / 2];
        this.radius = Math.hypot(x * pitch[0], y * pitch[1], layers * pitch[2]) / 2;
        const { on } = this;
        on.bindVertexArray(this.bedArray);
        on.bindBuffer(on.ARRAY_BUFFER, this.bedSet);
        on.bufferData(on.ARRAY_BUFFER, new Float32Array([0, 0, 0, x, 0, 0, x, y, 0, 0, y, 0]), on.STATIC_DRAW);
        on.enableVertexAttribArray(0);
        on.vertexAttribPointer(0, 3, on.FLOAT, false, 0, 0);
        this.cut(layers - 1);
    }

    fill(set, list, side) {
        const { on } = this;
        this.orderUpTo(list.count);
        on.bindVertexArray(set.array);
        on.bindBuffer(on.ELEMENT_ARRAY_BUFFER, this.order);
        on.bindBuffer(on.ARRAY_BUFFER, set.buffer);
        on.bufferData(on.ARRAY_BUFFER, corners(list, side), on.STATIC_DRAW);
        set.count = list.count;
    }

    orderUpTo(faces) {
        if (faces <= this.mostOrdered) return;
        this.mostOrdered = faces;
        const { on } = this;
        const order = new Uint32Array(faces * 6);
        for (let face = 0; face < faces; face++)
            order.set(
                [0, 1, 2, 2, 1, 3].map(corner => face * 4 + corner),
                face * 6,
            );
        on.bindVertexArray(null);
        on.bindBuffer(on.ELEMENT_ARRAY_BUFFER, this.order);
        on.bufferData(on.ELEMENT_ARRAY_BUFFER, order, on.STATIC_DRAW);
    }

    /** Cuts above a layer of the volume. */
    cut(layer) {
        this.top = layer;
        this.fill(this.lid, this.faces.lid(layer), sides[4]);
    }

    clear() {
        this.on.clearColor(0, 0, 0, 0);
        this.on.clear(this.on.COLOR_BUFFER_BIT | this.on.DEPTH_BUFFER_BIT);
    }

    /** Draws it turned: `yaw` about Z and `tilt` from the level, in radians, as large as `size`, in inks of three numbers from 0 to 1. */
    draw({ yaw, tilt, size }, inks) {
        const { on, canvas } = this;
        on.viewport(0, 0, canvas.width, canvas.height);
        this.clear();
        const view = viewOf(yaw, tilt);
        const least = Math.min(canvas.width, canvas.height);
        const scale = size / this.radius;
        const zoom = [(scale * least) / canvas.width, (scale * least) / canvas.height];
        this.use(this.bed, view, zoom);
        on.uniform3fv(this.bed.uniform('ink'), inks.bed);
        on.bindVertexArray(this.bedArray);
        on.drawArrays(on.LINE_LOOP, 0, 4);
        this.use(this.solid, view, zoom);
        on.uniform3fv(this.solid.uniform('inkA'), inks.a);
        on.uniform3fv(this.solid.uniform('inkB'), inks.b);
        const pixels = (this.pitch[0] * scale * least) / 2;
        on.uniform1f(this.solid.uniform('grow'), 0.35 / pixels);
        on.uniform1f(this.solid.uniform('lines'), pixels > 5 ? 0.7 / pixels : 0);
        sides.forEach((side, index) => this.drawSide(index, side, view));
    }

    use(code, view, zoom) {
        const { on } = this;
        on.useProgram(code.program);
        on.uniform3fv(code.uniform('middle'), this.middle);
        on.uniform3fv(code.uniform('pitch'), this.pitch);
        on.uniformMatrix3fv(code.uniform('turn'), true, view.flat());
        on.uniform2fv(code.uniform('zoom'), zoom);
        on.uniform1f(code.uniform('depth'), 0.99 / this.radius);
    }

    // Only the three ways that can be seen from here.
    drawSide(index, { normal, along, across }, [, , towards]) {
        if (normal[0] * towards[0] + normal[1] * towards[1] + normal[2] * towards[2] <= 0) return;
        const { on, solid, top, faces } = this;
        on.uniform3fv(solid.uniform('along'), along);
        on.uniform3fv(solid.uniform('across'), across);
        on.uniform1f(solid.uniform('shade'), shades[index]);
        const isTop = index === 4;
        const count = isTop ? (top === 0 ? 0 : faces.ends[index][top - 1]) : faces.ends[index][top];
        this.drawFaces(this.sets[index], count);
        if (isTop) this.drawFaces(this.lid, this.lid.count);
    }

    drawFaces(set, count) {
        if (count === 0) return;
        const { on } = this;
        on.bindVertexArray(set.array);
        on.drawElements(on.TRIANGLES, count * 6, on.UNSIGNED_INT, 0);
    }
}

/** Where right, up and towards the reader point, in the machine's axes. */
export function viewOf(yaw, tilt) {
    const [cosYaw, sinYaw, cosTilt, sinTilt] = [Math.cos(yaw), Math.sin(yaw), Math.cos(tilt), Math.sin(tilt)];
    return [
        [cosYaw, sinYaw, 0],
        [-sinYaw * sinTilt, cosYaw * sinTilt, cosTilt],
        [sinYaw * cosTilt, -cosYaw * cosTilt, sinTilt],
    ];
}

// The four corners of each face: x, y, z and the head.
function corners(list, { along, across, normal, isPlus }) {
    const made = new Uint16Array(list.count * 16);
    const { used } = list;
    for (let face = 0, from = 0, to = 0; face < list.count; face++, from += numbersPerFace) {
        for (let corner = 0; corner < 4; corner++, to += 4) {
            const [length, width] = [corner & 1 ? used[from + 3] : 0, corner & 2 ? used[from + 4] : 0];
            for (let axis = 0; axis < 3; axis++)
                made[to + axis] = used[from + axis] + (normal[axis] !== 0 ? isPlus : along[axis] * length + across[axis] * width);
            made[to + 3] = used[from + 5] + corner * 4;
        }
    }
    return made;
}

function program(on, vertex, fragment) {
    const made = on.createProgram();
    for (const [kind, code] of [
        [on.VERTEX_SHADER, vertex],
        [on.FRAGMENT_SHADER, fragment],
    ]) {
        const shader = on.createShader(kind);
        on.shaderSource(shader, code);
        on.compileShader(shader);
        on.attachShader(made, shader);
    }
    on.linkProgram(made);
    if (!on.getProgramParameter(made, on.LINK_STATUS)) throw new Error(`the picture's program: ${on.getProgramInfoLog(made)}`);
    const places = new Map();
    return {
        program: made,
        uniform(name) {
            if (!places.has(name)) places.set(name, on.getUniformLocation(made, name));
            return places.get(name);
        },
    };
}
