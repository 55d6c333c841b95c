// The colours of the style sheet, for what is drawn and not styled.

const names = ['sheet', 'ink', 'soft-ink', 'rule', 'head-a', 'head-b', 'due-a', 'due-b', 'here', 'fault'];
const dark = matchMedia('(prefers-color-scheme: dark)');
let inks = null;

/** The colours as they are now. */
export function ink() {
    if (inks === null) {
        const style = getComputedStyle(document.documentElement);
        inks = Object.fromEntries(names.map(name => [name, style.getPropertyValue(`--${name}`).trim()]));
    }
    return inks;
}

/** Calls when light has become dark or the other way round. */
export function onInkChange(call) {
    dark.addEventListener('change', () => {
        inks = null;
        call();
    });
}
