// Hold-to-run: the machine has leave to move for a moment only, and is given it again and again while a button or key is held.

import { post } from './api.js';

const everyMs = 60; // the leave of one message is 150 ms
const mostUnanswered = 2; // so that no leave that was given long ago lies on the way

export class Jog {
    /** @param deeds trouble(what) */
    constructor(deeds) {
        this.deeds = deeds;
        this.held = null;
        this.holds = Date.now(); // the next hold's number is greater, also on a page that was loaded anew
        this.unanswered = 0;
        this.mayMove = false;
        // Whatever takes the reader's eye or hand off the page ends the move.
        for (const name of ['blur', 'pagehide']) addEventListener(name, () => this.release());
        addEventListener('contextmenu', () => this.release());
        document.addEventListener('visibilitychange', () => this.release());
    }

    /** Whether a move is possible now; what is moving ends where it is not. */
    allow(mayMove) {
        this.mayMove = mayMove;
        if (!mayMove) this.release();
    }

    /** Makes a button move an axis while it is held, by pointer or key. */
    attach(button, move) {
        button.addEventListener('pointerdown', event => {
            if (event.button !== 0) return;
            button.setPointerCapture(event.pointerId);
            this.hold(button, move);
        });
        for (const name of ['pointerup', 'pointercancel', 'lostpointercapture', 'blur']) button.addEventListener(name, () => this.release(button));
        button.addEventListener('keydown', event => {
            if (event.key !== ' ' && event.key !== 'Enter') return;
            event.preventDefault();
            if (!event.repeat) this.hold(button, move);
        });
        button.addEventListener('keyup', event => (event.key === ' ' || event.key === 'Enter') && this.release(button));
    }

    /** Moves by a key that stands for a button, while it is held. */
    attachKeys(place, moves) {
        place.addEventListener('keydown', event => {
            const found = moves[event.key];
            if (found === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
            event.preventDefault();
            if (!event.repeat) this.hold(found.button, found.move);
        });
        place.addEventListener('keyup', event => moves[event.key] !== undefined && this.release(moves[event.key].button));
        place.addEventListener('focusout', () => this.release());
    }

    hold(button, move) {
        if (!this.mayMove || button.disabled || this.held !== null) return;
        this.held = { button, move: { ...move, hold: ++this.holds } };
        button.classList.add('is-held');
        this.say();
        this.beat = setInterval(() => this.say(), everyMs);
    }

    async say() {
        const held = this.held;
        if (held === null || this.unanswered >= mostUnanswered) return;
        this.unanswered++;
        try {
            await post('/api/hand/jog', held.move);
        } catch (trouble) {
            if (this.held === held) {
                this.deeds.trouble(trouble);
                this.release();
            }
        } finally {
            this.unanswered--;
        }
    }

    release(button = null) {
        if (this.held === null || (button !== null && this.held.button !== button)) return;
        const { button: held, move } = this.held;
        held.classList.remove('is-held');
        this.held = null;
        clearInterval(this.beat);
        // Leave of this hold that is still on the way counts no more. Without an answer what was given runs out by itself.
        post('/api/hand/rest', { hold: move.hold }).catch(() => {});
    }
}
