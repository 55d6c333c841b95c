// Numbers in words.

/** A time: 7 s, 4 min 05 s, 2 h 03 min. */
export function duration(seconds) {
    if (!Number.isFinite(seconds)) return 'not known';
    const whole = Math.max(0, Math.round(seconds));
    if (whole < 60) return `${whole} s`;
    const two = number => String(number).padStart(2, '0');
    if (whole < 3600) return `${Math.floor(whole / 60)} min ${two(whole % 60)} s`;
    return `${Math.floor(whole / 3600)} h ${two(Math.floor(whole / 60) % 60)} min`;
}

/** A count with its noun: 1 record, 12 records. */
export function counted(count, noun) {
    return `${grouped(count)} ${noun}${count === 1 ? '' : 's'}`;
}

/** A whole number, its thousands apart: 12 345. */
export function grouped(number) {
    return String(number).replace(/\B(?=(\d{3})+$)/g, '\u202f');
}

/** A share of 1 in whole per cent; 100 only where it is all. */
export function percent(share) {
    return `${share >= 1 ? 100 : Math.min(99, Math.max(0, Math.round(share * 100)))} %`;
}

/** The time of day by the reader's own clock: 14:05:09. */
export function timeOfDay(date) {
    return [date.getHours(), date.getMinutes(), date.getSeconds()].map(part => String(part).padStart(2, '0')).join(':');
}
