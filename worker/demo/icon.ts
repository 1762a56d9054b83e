/** A plain leaf. */
export const icon = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><path fill="#2f6b4f" d="M28 4C12 4 4 12 4 21c0 2 .4 4 1 6l3-6c4-6 8-8 13-10-6 4-10 8-13 16 1 .4 3 1 5 1C23 28 28 18 28 4z"/></svg>`;
