// Elements made in code. Text is always set as text, never as markup: names of files and words of devices come from outside.

/** The element with an id, which must be there. */
export function at(id) {
    const found = document.getElementById(id);
    if (found === null) throw new Error(`no element ${id}`);
    return found;
}

/** Makes an element: `make('p', { class: 'hint', text: 'words' }, child, …)`. Names that begin with `on` are listeners. */
export function make(tag, settings = {}, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(settings)) {
        if (value === null || value === undefined || value === false) continue;
        if (name === 'text') element.textContent = value;
        else if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
        else element.setAttribute(name, value === true ? '' : value);
    }
    element.append(...children.filter(child => child !== null && child !== undefined));
    return element;
}

/** Sets text only where it differs, so that nothing is drawn or spoken again for nothing. */
export function say(element, text) {
    if (element.textContent !== text) element.textContent = text;
}

/** Sets an attribute only where it differs; null takes it away. */
export function mark(element, name, value) {
    if (value === null) element.removeAttribute(name);
    else if (element.getAttribute(name) !== String(value)) element.setAttribute(name, value);
}
