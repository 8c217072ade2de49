// What a screen reader calls a part of the page.

/** With the label of the element, where several on one page have to be told apart. @param {import("../state.js").State} state @param {string} word */
export const named = ({ label }, word) => (label ? `${label}: ${word}` : word);
