/** What the element says before the rest of the program is here. */
export const startWords = {
  start: "Check my plant",
  opening: "Opening the plant check…",
  failed: "The plant check cannot be opened just now. Use the link above, or call us:",
  again: "Try again",
} as const;
