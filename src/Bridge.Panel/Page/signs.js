// A sign for each of the five meanings that IEC 60073 gives colours to. Each has a shape of its own, so that it is known without the colour.

const shapes = {
    emergency: ['M12 1 23 12 12 23 1 12z', 'M8 8l8 8M16 8l-8 8'],
    abnormal: ['M12 2 23.5 22H.5z', 'M12 9v6M12 17.6v1.8'],
    normal: ['M2 2h20v20H2z', 'M6.5 12.5l4 4 7-9'],
    action: ['M12 1a11 11 0 1 1 0 22 11 11 0 0 1 0-22z', 'M12 6v9M7.5 11.5 12 16l4.5-4.5'],
    neutral: ['M2 6h20v12H2z', 'M7 12h10'],
};

const words = { emergency: 'Emergency', abnormal: 'Abnormal', normal: 'Normal', action: 'You are needed', neutral: 'At rest' };

/** The word for a sign. */
export function signWord(name) {
    return words[name] ?? words.neutral;
}

/** The sign's picture, as SVG. */
export function signPicture(name) {
    const known = name in shapes ? name : 'neutral';
    const space = 'http://www.w3.org/2000/svg';
    const svg = document.createElementNS(space, 'svg');
    svg.setAttribute('viewBox', '0 0 24 24');
    svg.setAttribute('class', `sign-picture is-${known}`);
    svg.setAttribute('aria-hidden', 'true');
    shapes[known].forEach((drawn, index) => {
        const path = document.createElementNS(space, 'path');
        path.setAttribute('d', drawn);
        path.setAttribute('class', index === 0 ? 'sign-ground' : 'sign-mark');
        svg.append(path);
    });
    return svg;
}
