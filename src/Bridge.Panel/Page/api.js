// What the page asks the program.

import { takeKey, pageNumber } from './key.js';

const longestAnswerMs = 15_000;

/** What went wrong, in the program's words where it gave any. */
export class Trouble extends Error {
    constructor(title, detail = '', refusals = [], status = 0) {
        super(title);
        this.detail = detail;
        this.refusals = refusals;
        this.status = status;
    }

    /** The program does not know the key. */
    get isLockedOut() {
        return this.status === 401;
    }
}

export function headers(more = {}) {
    const key = takeKey();
    return { 'Bridge-Page': pageNumber, ...(key === null ? {} : { Authorization: `Bearer ${key}` }), ...more };
}

async function ask(method, path, { body, type, longestMs = longestAnswerMs } = {}) {
    let response;
    try {
        response = await fetch(path, {
            method,
            body,
            cache: 'no-store',
            redirect: 'error',
            headers: headers(type === undefined ? {} : { 'Content-Type': type }),
            signal: AbortSignal.timeout(longestMs),
        });
    } catch (error) {
        throw error.name === 'TimeoutError'
            ? new Trouble('The program has not answered in time', `It was given ${longestMs / 1000} s. See whether it still runs, and try again.`)
            : new Trouble('The program does not answer', 'See whether it still runs on the computer at the machine.');
    }
    if (response.ok) return response;
    throw await troubleOf(response);
}

async function troubleOf(response) {
    let problem = {};
    try {
        problem = await response.json();
    } catch {
        // Not a problem in words of the program's: the number has to do.
    }
    return new Trouble(
        problem.title ?? `The program refused (${response.status})`,
        problem.detail ?? '',
        Array.isArray(problem.refusals) ? problem.refusals : [],
        response.status,
    );
}

/** GET, as JSON. */
export async function get(path) {
    return (await ask('GET', path)).json();
}

/** GET, as octets. */
export async function getOctets(path, longestMs = longestAnswerMs) {
    return (await ask('GET', path, { longestMs })).arrayBuffer();
}

/** GET, as a file. */
export async function getFile(path) {
    return (await ask('GET', path)).blob();
}

/** POST of JSON, or of nothing; the answer as JSON, null where it is empty. */
export async function post(path, value) {
    const response = await ask('POST', path, value === undefined ? {} : { body: JSON.stringify(value), type: 'application/json' });
    const text = await response.text();
    return text === '' ? null : JSON.parse(text);
}

/** POST of a file's octets; the answer as JSON. */
export async function postFile(path, file, longestMs) {
    return (await ask('POST', path, { body: file ?? '', type: 'application/octet-stream', longestMs })).json();
}
