// The band at the top: the state in words with its sign, the stopping controls, and who holds the controls.

import { at, make, mark, say } from './elements.js';
import { signPicture, signWord } from './signs.js';

const stopping = ['Hold', 'Stop', 'Abort'];

export class Band {
  /** @param deeds command(name) to give a command, controls(what) to ask for the controls, give them or keep them */
  constructor(deeds) {
    this.deeds = deeds;
    this.sign = '';
    this.holderSeen = '';
    this.buttons = [...document.querySelectorAll('.stop')];
    for (const button of this.buttons) button.addEventListener('click', () => deeds.command(button.dataset.command));
  }

  /** Shows the machine that the panel is for. */
  showMachine({ machine, device }) {
    say(at('machine'), `${machine.name} · ${device.isMock ? 'mock device' : device.name}`);
    document.title = `${machine.name} · Bridge`;
  }

  show(live, controls, isHeard) {
    const name = live?.state ?? 'Not known';
    const sign = live?.sign ?? 'neutral';
    const title = stateTitle(live);
    if (this.sign !== sign) {
      this.sign = sign;
      at('sign').replaceChildren(signPicture(sign));
      mark(at('band'), 'data-sign', sign);
    }
    say(at('state'), isHeard ? title : `Was: ${title}`);
    say(at('because'), [live?.causeWords, live?.whatToDo].filter(words => words).join(' '));
    mark(at('band'), 'data-seq', live?.seq ?? 0);
    mark(at('band'), 'data-state', name);
    for (const button of this.buttons) button.disabled = !isHeard || !(live?.accepts ?? []).includes(button.dataset.command);
    this.showHolder(controls, isHeard);
  }

  // Drawn again only when it changed, so that a button keeps its focus.
  showHolder(controls, isHeard) {
    const seen = JSON.stringify([controls, isHeard]);
    if (seen === this.holderSeen) return;
    this.holderSeen = seen;
    at('holder').replaceChildren(...(controls === null ? [] : holderParts(controls, isHeard, this.deeds)));
  }
}

function holderParts({ holds, pages, asked, asking }, isHeard, deeds) {
  const button = (text, what, main) => make('button', { type: 'button', class: main ? 'main-deed' : '', text, disabled: !isHeard, onclick: () => deeds.controls(what) });
  const others = pages > 1 ? `, ${pages - 1} more open` : '';
  if (holds && asked) {
    return [make('p', { role: 'alert', text: 'Another page asks for the controls.' }), button('Give them', 'give', true), button('Keep them', 'refuse')];
  }
  if (holds) return [make('p', { text: `This page has the controls${others}` })];
  if (asking) return [make('p', { text: 'Asked for the controls; the page that has them must give them' })];
  return [make('p', { text: 'This page watches. It may Hold, Stop and Abort' }), button('Ask for the controls', 'ask')];
}

/** The state by its standard name with what it means, as one line; what goes on where there is no state. */
export function stateTitle(live) {
  if (live === null) return 'Not heard yet';
  if (live.what === 'nothing' && !live.run) return live.stateWords || 'Nothing moves';
  return live.stateWords ? `${live.state}: ${live.stateWords}` : live.state;
}

/** What a screen reader is told about a change, in one sentence. */
export function spokenState(live) {
  return [signWord(live.sign), stateTitle(live), live.causeWords, live.whatToDo].filter(words => words).join('. ');
}

export { stopping };
