import { make } from './elements.js';

/** Hands a file to the reader to keep. */
export function saveFile(blob, name) {
    const address = URL.createObjectURL(blob);
    make('a', { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
