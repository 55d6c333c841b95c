// Server-sent events, read with fetch because they need the key (the browser's own EventSource sends no headers).

import { headers } from './api.js';

const longestSilenceMs = 5_000;
const longestEvent = 1 << 20;
const waitsMs = [300, 700, 1_500, 3_000];

/** Follows the program's events for as long as the page lives: reads, notices silence, and connects again by itself. */
export class Stream {
    /** @param told what to call: heard(name, value) for an event, lost() when the program is not heard, lockedOut() when it does not know the key */
    constructor(told) {
        this.told = told;
        this.isHeard = false;
        this.tries = 0;
        this.lastHeard = performance.now();
        setInterval(() => this.watch(), 250);
        // A tablet that slept must not show the past as the present for one moment.
        document.addEventListener('visibilitychange', () => this.watch());
    }

    async run() {
        for (;;) {
            this.connection = new AbortController();
            this.lastHeard = performance.now();
            try {
                if (!(await this.read())) return;
            } catch {
                // Whatever broke, it is the same for a person: the program is not heard.
            }
            this.lose();
            await new Promise(resolve => setTimeout(resolve, waitsMs[Math.min(this.tries++, waitsMs.length - 1)]));
        }
    }

    // False where there is no use in trying again.
    async read() {
        const response = await fetch('/api/events', { headers: headers(), cache: 'no-store', signal: this.connection.signal });
        if (response.status === 401) {
            this.told.lockedOut();
            return false;
        }
        if (!response.ok) return true;
        const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
        let text = '';
        for (;;) {
            const { value, done } = await reader.read();
            if (done) return true;
            this.lastHeard = performance.now();
            text += value;
            for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
                this.take(text.slice(0, end));
                text = text.slice(end + 2);
            }
            if (text.length > longestEvent) throw new Error('an event without an end');
        }
    }

    take(event) {
        let name = 'message';
        const data = [];
        for (const line of event.split('\n')) {
            if (line.startsWith('event:')) name = line.slice(6).trim();
            else if (line.startsWith('data:')) data.push(line.slice(5));
        }
        if (data.length === 0) return;
        this.isHeard = true;
        this.tries = 0;
        this.told.heard(name, JSON.parse(data.join('\n')));
    }

    watch() {
        if (performance.now() - this.lastHeard < longestSilenceMs) return;
        this.lose();
        this.connection?.abort();
    }

    lose() {
        if (!this.isHeard) return;
        this.isHeard = false;
        this.told.lost();
    }
}
