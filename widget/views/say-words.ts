import type { AskId } from "../../flows/edition.ts";

/* What the screens around typed words say. They are loaded when the field is first used. */
export const isThatRight = "Is that right?";
export const untick =
  "This is what we understood. Take away the tick where we got it wrong. Nothing counts before you agree.";
export const nothingHeard = "We did not understand that. Try other words, or go on with the questions.";
export const yourReply = "Your answer";
export const yourPlant = "Your plant";
export const whichPlant = "Which of these is the sick plant?";
export const notThese = "None of these";
export const youSee = "What you see";
export const youDoNotSee = "What you do not see";
export const yourHome = "Your home";
export const askLater = "Ask me later";
export const from = (said: string) => `You said: “${said}”`;
export const unsure = "You were not sure.";
export const yourIdea = "Your own idea";
export const ideaHint = "We keep it in mind, but it is no sign. We go by what you see.";
export const perhaps = (names: string) => `It may be: ${names}`;
export const ruledOut = (names: string) =>
  `You do not think it is: ${names}. We look at the signs all the same.`;
export const yourQuestions = "What you want to know";
export const questionsHint = "We answer this with the verdict.";
export const rest = "We did not understand this:";
export const cut = "That was long. We read only the first part of it.";
export const agree = "Yes, go on";
export const goOn = "Go on with the questions";
export const without = "Go on without this";

export const asked: Record<AskId, string> = {
  "will-it-live": "Will it live?",
  "will-it-spread": "Will it spread?",
  "safe-for-pets": "Is it safe for pets?",
  "safe-for-people": "Is it safe for people?",
  "can-i-eat-it": "Can I still eat it?",
  "what-is-it": "What is it?",
};
