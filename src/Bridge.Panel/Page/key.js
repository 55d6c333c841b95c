// The key of this start of the program, and the number of this page.

const keyName = 'bridge-key';
const pageName = 'bridge-page';

/** The key: from behind the `#` of the address, which is then taken out of sight, or as kept for this tab; null where there is none. */
export function takeKey() {
    const given = /^#key=([\w.~+/=-]{1,200})$/.exec(location.hash);
    if (given !== null) {
        keepKey(given[1]);
        history.replaceState(null, '', location.pathname);
    }
    return sessionStorage.getItem(keyName);
}

export function keepKey(key) {
    sessionStorage.setItem(keyName, key);
}

export function forgetKey() {
    sessionStorage.removeItem(keyName);
}

// A page that is loaded again is the same page and keeps the controls. A tab that is doubled gets a copy of the storage and must not be
// taken for the first: so the number lies in the storage only between the leaving of a page and its next loading.
function takeNumber() {
    const kept = sessionStorage.getItem(pageName);
    sessionStorage.removeItem(pageName);
    return kept ?? Array.from(crypto.getRandomValues(new Uint8Array(16)), octet => octet.toString(16).padStart(2, '0')).join('');
}

/** The number of this page: 32 hexadecimal digits. */
export const pageNumber = takeNumber();

addEventListener('pagehide', () => sessionStorage.setItem(pageName, pageNumber));
addEventListener('pageshow', () => sessionStorage.removeItem(pageName));
