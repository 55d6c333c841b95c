// Wires the parts of the page: what the program tells comes in at the top, what a person asks goes out at the bottom.

import { get, post } from './api.js';
import { Band, spokenState } from './band.js';
import { Checklist } from './checklist.js';
import { Choose } from './choose.js';
import { at, make, mark, say } from './elements.js';
import { showEntrance } from './enter.js';
import { Hand } from './hand.js';
import { takeKey } from './key.js';
import { PlanFigures } from './plan.js';
import { RunFigures } from './run.js';
import { Runs } from './runs.js';
import { addSaid, clearSaid } from './said.js';
import { Sheet } from './sheet.js';
import { Speech } from './speech.js';
import { Stream } from './stream.js';
import { hideTrouble, showTrouble } from './trouble.js';
import { timeOfDay } from './words.js';

/** What is known, and what the reader has chosen. */
const seen = { live: null, controls: null, job: null, isHeard: false, view: 'work', putAway: null, said: '' };
let parts = null;
let isDue = false;

addEventListener('hashchange', () => location.hash.startsWith('#key=') && location.reload());
start();

async function start() {
    if (takeKey() === null) {
        showEntrance(false);
        return;
    }
    for (;;) {
        try {
            build(await get('/api/panel'));
            new Stream({ heard, lost, lockedOut: () => showEntrance(true) }).run();
            return;
        } catch (trouble) {
            if (trouble.status === undefined) throw trouble;
            if (trouble.isLockedOut) {
                showEntrance(true);
                return;
            }
            showTrouble(trouble);
            await new Promise(resolve => setTimeout(resolve, 1_000));
        }
    }
}

function build(panel) {
    hideTrouble();
    const deeds = { command, controls, hand, trouble, planned, dryRun, askToRun: () => parts.checklist.open('run'), show, planNext, lookAt };
    parts = {
        band: new Band(deeds),
        sheet: new Sheet(panel.machine, deeds),
        choose: new Choose(panel, deeds),
        plan: new PlanFigures(panel, deeds),
        run: new RunFigures(deeds),
        hand: new Hand(panel, deeds),
        runs: new Runs(deeds),
        checklist: new Checklist(panel.device, deeds),
        speech: new Speech(),
    };
    parts.band.setPanel(panel);
    due();
    new ResizeObserver(() => {
        document.documentElement.style.scrollPaddingTop = `${at('band').offsetHeight + 8}px`;
    }).observe(at('band'));
    at('band').hidden = false;
    for (const button of document.querySelectorAll('[data-view]')) button.addEventListener('click', () => goTo(button.dataset.view));
    at('prompt-done').addEventListener('click', () => command('Unhold'));
    goTo('work');
    fetchJob();
}

// --- what the program tells

function heard(name, value) {
    if (!seen.isHeard) {
        seen.isHeard = true;
        at('past').replaceChildren();
        document.body.classList.remove('is-past');
        clearSaid(); // what was said lately is said again
        if (seen.lost) fetchJob();
    }
    if (name === 'live') seen.live = value;
    else if (name === 'controls') seen.controls = value;
    else if (name === 'job' && value.id !== seen.job?.id) fetchJob();
    else if (name === 'told') {
        seen.said = value.words;
        addSaid(value);
    }
    due();
}

function lost() {
    seen.isHeard = false;
    seen.lost = true;
    document.body.classList.add('is-past');
    at('past').replaceChildren(
        make(
            'div',
            {},
            make('h2', { text: `What you see is past, since ${timeOfDay(new Date())}` }),
            make('p', {
                text:
                    'The program is not heard. The machine may be doing something else by now: look at the machine; its own e-stop is what stops it. '
                    + 'This page goes on trying by itself.',
            }),
        ),
    );
    parts.checklist.close();
    due();
}

async function fetchJob() {
    try {
        takeJob(await PlanFigures.fetch());
    } catch (what) {
        trouble(what);
    }
}

function takeJob(job) {
    if (job?.id === seen.job?.id) return;
    seen.job = job;
    parts.sheet.showJob(job);
    parts.plan.show(job);
    due();
}

// One drawing for a frame of the screen, however many events came.
function due() {
    if (isDue) return;
    isDue = true;
    requestAnimationFrame(() => {
        isDue = false;
        draw();
    });
}

function draw() {
    const { live, controls: held, job, isHeard } = seen;
    const run = live?.run ?? null;
    const isRunning = run !== null && run.end === null;
    const isMoving = isRunning || /ing$|^Execute$/.test(live?.state ?? '');
    const shownRun = run !== null && (isRunning || (runKey(run) !== seen.putAway && (job === null || job.id === run.jobId))) ? run : null;
    const holds = isHeard && held?.holds === true;
    if (isRunning) seen.putAway = null;
    if (live?.what === 'nothing') seen.said = '';
    document.body.classList.toggle('is-running', shownRun !== null);
    parts.band.show(live, held, isHeard);
    at('choose').hidden = isMoving || shownRun !== null;
    parts.choose.allow(holds && !isMoving);
    at('plan').hidden = isMoving || shownRun !== null || job === null;
    parts.plan.allow({ run: holds && !isMoving && live?.what === 'nothing' && job?.canRun === true });
    parts.run.show(shownRun);
    parts.sheet.showRun(shownRun);
    parts.hand.show(live, held, isHeard);
    drawPrompt(live, run, holds);
    if (live !== null && isHeard) parts.speech.tell(live.sign, spokenState(live));
}

function runKey(run) {
    return run === null ? null : `${run.jobId} ${run.name}`;
}

// What a person has to do now, at one place on every view: what is said while it connects, a wait of the job, or a machine that is held.
function drawPrompt(live, run, holds) {
    const isHeld = run?.end === null && (live?.accepts ?? []).includes('Unhold');
    const isConnecting = live !== null && live.what !== 'nothing' && live.state === '' && seen.said !== '';
    const prompt = run?.end === null ? run.prompt : null;
    at('prompt').hidden = prompt === null && !isHeld && !isConnecting;
    say(at('prompt-title'), prompt !== null ? 'Do this now' : isConnecting ? 'The program says' : 'It is held');
    say(at('prompt-words'), prompt ?? (isConnecting ? seen.said : 'It stands still and keeps its place. Nothing is lost or done twice when it goes on.'));
    say(at('prompt-done'), prompt !== null ? 'Done: go on (Unhold)' : 'Go on (Unhold)');
    at('prompt-done').hidden = isConnecting;
    at('prompt-done').disabled = !holds || !isHeld;
}

// --- what a person asks

async function tryTo(deed) {
    hideTrouble();
    try {
        await deed();
    } catch (what) {
        trouble(what);
    }
}

function trouble(what) {
    if (what.status === undefined) throw what;
    if (what.isLockedOut) {
        showEntrance(true);
    } else {
        showTrouble(what);
        parts?.sheet.showRefused(what.refusals.flatMap(refusal => refusal.cells ?? []));
    }
}

function command(name) {
    return tryTo(() => post(seen.live?.what === 'hand' ? '/api/hand/command' : '/api/run/command', { command: name }));
}

function hand(name) {
    if (name === 'Connect') return parts.checklist.open('hand');
    return tryTo(() => post('/api/hand/command', { command: name }));
}

function controls(what) {
    return tryTo(() => post('/api/controls', { do: what }));
}

function planned(job) {
    hideTrouble();
    seen.job = null; // the same cells may have been planned in another way
    takeJob(job);
    seen.putAway = runKey(seen.live?.run ?? null);
    due();
    // Where there is room for one column only, what was asked for makes place for what it costs.
    if (innerWidth < 1000) at('options-fold').open = false;
    requestAnimationFrame(() => at('plan').scrollIntoView({ block: innerWidth < 1000 ? 'start' : 'nearest' }));
}

function dryRun(fast) {
    scrollTo(0, 0);
    return tryTo(() => post('/api/run', { on: 'mock', fast, operator: '', answers: [], measureLost: false }));
}

function planNext(run) {
    seen.putAway = runKey(run);
    due();
    at('place').focus();
}

function lookAt(run) {
    goTo('runs', run.name);
}

function show(layer) {
    parts.sheet.showSolid(false);
    parts.sheet.pick(layer);
    at('sheet').scrollIntoView({ block: 'nearest' });
}

function goTo(view, run = null) {
    seen.view = view;
    for (const name of ['work', 'hand', 'runs']) at(name).hidden = name !== view;
    for (const button of document.querySelectorAll('[data-view]')) mark(button, 'aria-current', button.dataset.view === view ? 'page' : null);
    if (view === 'runs') parts.runs.open(run);
}
