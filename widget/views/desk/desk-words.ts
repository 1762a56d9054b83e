import type { Outcome } from "../../../flows/desk/best-question.ts";
import type { DeskGroup } from "../../../flows/desk/groups.ts";
import type { PieceKind } from "../../../flows/desk/pieces.ts";

/** Sentences of the phone desk. Staff read them, so that words of the trade are fine. */
export const title = "Phone desk";
export const nav = "For staff";
export const counter = "Sample counter";
export const figures = "How often we were right";
export const shopperView = "As the caller sees it";
export const slip = "Sample slip";
export const fresh = "New call";

export const fieldLabel = "Keys";
export const fieldHint =
  "A digit answers what to ask next. A letter picks a question. / takes the caller’s words. ? lists the keys.";
export const choosing = (prompt: string) => `Chosen: ${prompt}`;
export const typePlant = "Type the plant’s name, then Enter.";
export const typeWords = "Type it as the caller says it, then Enter. Nothing counts before you agree.";
export const typeWordsOr = "Enter reads it. ↓ chooses an answer below that holds these words.";
export const inWords = "In words";
export const noMatch = "Nothing here goes by that.";
export const unknownKey = (typed: string) =>
  `No question or answer has the key ${typed}. Nothing was changed.`;
export const suggestions = "Found";

export const sayField = "In the caller’s own words";
export const sayHint =
  "The plant, what is seen and not seen, the home, what they think it is, what they ask.";
export const readIt = "Read it";
export const understood = "What we understood";
export const heardHint = "Nothing counts before you agree. Take away the ticks where it is wrong.";
export const heardKeys =
  "Enter takes what is ticked. The key before a piece takes it away, or back in. Esc brings the words back.";
export const reading = "Reading …";
export const notUnderstood =
  "Nothing of it was understood. Nothing was changed; the words are still in the field.";
export const notUnderstoodPage = "Nothing of it was understood. Nothing was changed.";
export const orByWords = "↓ chooses an answer that holds these words.";
export const cannotRead = "The words cannot be read just now. They are still in the field.";
export const agreeFirst = "First take what was understood with Enter, or bring the words back with Esc.";
export const heardKinds = {
  reply: "answer",
  plant: "plant",
  seen: "seen",
  "not-seen": "not seen",
  home: "household",
  idea: "caller’s idea",
  ask: "caller asks",
} satisfies Record<PieceKind, string>;
export const heardKind = (kind: string, pieces: string) => `${kind}: ${pieces}`;
export const heardAll = (kinds: string) => `Understood. ${kinds}.`;
export const restIs = (pieces: readonly string[]) =>
  `Not understood: ${pieces.map((piece) => `“${piece}”`).join(", ")}.`;
export const cutOff = "That was long. Only the first part was read.";
export const enterTakes = "Enter takes it.";
export const pieceKinds = {
  reply: "The answer",
  plant: "The plant",
  seen: "Seen",
  "not-seen": "Not seen",
  home: "Household",
  idea: "The caller’s own idea; it weighs nothing",
  ask: "The caller asks; the verdict answers",
} satisfies Record<PieceKind, string>;
export const whichPlant = "Which of these is the sick plant?";
export const noneOfThese = "None of these";
export const heardFrom = (said: string) => `“${said}”`;
export const heardUnsure = "said with a doubt";
export const ruledOut = (names: string) =>
  `The caller does not think it is: ${names}. The signs count all the same.`;
export const agreeAll = "Take what is ticked";
export const backToWords = "Back to the words";
export const withoutIt = "Without this";
export const leftOut = (piece: string) => `Left out: ${piece}.`;
export const backIn = (piece: string) => `Back in: ${piece}.`;
export const taken = (count: number) => (count === 1 ? "1 thing taken." : `${count} things taken.`);
export const noneTaken = "Nothing was taken.";
export const ideaTold = "The caller’s own idea";
export const askTold = "The caller asks";
export const stillSettling = "The screen has just changed. Please press again.";

export const askNext = "Ask next";
export const notSure = "Not sure";
export const howToSay = "How to check, if they cannot tell";
export const because = {
  opening: "Everything else follows from it.",
  host: "Some plants fall ill in their own ways, and some sprays hurt them.",
  plan: "A step of the plan depends on it.",
  look: "It shows how the treatment goes.",
  opens: "Nothing stands yet; it may bring the first sign.",
};
export const separates = (first: string, others: string) =>
  `The best now: it can tell ${first} from ${others}.`;
export const weighs = (name: string) => `The best now: it makes ${name} surer, or less sure.`;
export const checks = (name: string) =>
  `${name} stands. This may still unseat it, or tell what brought it on.`;
export const settles = (answer: string, name: string) => `“${answer}” would make it ${name}.`;
export const or = " or ";

export const open = "Also open";
export const nothingOpen = "No other question is open.";
export const others = (count: number) => `All else a caller may tell: ${count} questions`;
export const groups = {
  plant: "The plant",
  shows: "On the plant",
  culprit: "Culprit and traces",
  soil: "Soil and roots",
  place: "The place",
  care: "Care",
  household: "Household",
  later: "How it went",
} satisfies Record<DeskGroup, string>;
export const plantField = "Name of the plant";
export const setPlant = "Find";
export const unknownPlant = "Not known";
export const take = "Take these answers";

export const differential = "What it could be";
export const nothingStands = "Nothing stands yet.";
export const standings = {
  suspected: "most likely",
  leaning: "leaning",
  undetermined: "open",
} satisfies Record<Outcome["standing"], string>;
export const beside = "also present";
export const behind = (decibans: number) => (decibans === 0 ? "level" : `${decibans} behind`);
export const gone = "no longer";
export const row = (rank: number, name: string) => `${rank}. ${name}`;
export const weight = (name: string, decibans: number) => `${name}: ${decibans} decibans`;
export const apart = (first: string, second: string) => `To tell ${first} from ${second}, ask:`;
export const speaksFor = (answer: string, name: string) => `“${answer}” → ${name}`;
export const noneApart = "No open question tells the top two apart. The check at home, or a sample, does.";

export const told = "Told so far";
export const nothingTold = "Nothing yet.";
export const undo = "Undo";
export const nothingToUndo = "There is nothing to undo.";
export const undone = "Undone.";
export const takeBack = "Take back";
export const takeBackThis = (prompt: string) => `Take back: ${prompt}`;
export const sayAloud = "Say";
export const noQuestion = "No question can change the verdict or the plan any more.";

export const handOver = "Hand over";
export const handOverHint = "The caller opens it where this call stopped.";
export const link = "Link";
export const copyLink = "Copy the link";
export const copied = "The link is copied.";
export const notCopied = "It could not be copied. Please select the link.";
export const message = "Message";
export const phoneField = "Caller’s mobile number";
export const phoneHint = "It stays in this window and is kept nowhere.";
export const phoneBad = "This is no phone number.";
export const sms = "Text message";
export const mail = "E-mail";
export const share = "Share";
export const codeToRead = "Code to read out";
export const qr = "The link as a QR code";
export const close = "Close";

export const takeOver = "Take over";
export const codeField = "Code the caller reads out";
export const codeHint = "Any spacing, small letters too.";
export const openCode = "Open";
export const codeKept = "This call is untouched.";
export const typedCount = (count: number) =>
  count === 1 ? "You typed 1 character." : `You typed ${count} characters.`;
export const halfCode =
  "Is there more? A code ends with a check sign, and rarely has fewer than five characters.";
export const guesses = "It may be one of these. Ask the caller:";
export const heard = (place: number, old: string, other: string) =>
  old === "" ? `${other} as character ${place}` : `character ${place} is ${other}, not ${old}`;
export const swapped = (place: number) => `characters ${place} and ${place + 1} the other way round`;
export const missing = (symbol: string) => `with ${symbol} at the end`;
export const nothingIn = "nothing answered yet";
export const more = (count: number) => `and ${count} more`;
export const opened = (count: number) =>
  count === 1 ? "The case is open: 1 answer." : `The case is open: ${count} answers.`;

export const keys = "Keys";
export const keysHint = "They work in the field above only, and never with Ctrl, Alt or Meta.";
export const keyList: readonly (readonly [key: string, does: string])[] = [
  ["1 … 9", "that answer to the question to ask next"],
  ["0", "not sure"],
  ["letter, digit", "an answer to any other question; every question keeps its letter"],
  ["letter, letter", "answers beyond the ninth; or the second question of that letter"],
  ["h, name, Enter", "the plant; a digit picks another of those found"],
  ["/ or Space, words, Enter", "reads the caller’s own words; Enter once more takes what was understood"],
  ["↓ ↑", "while typing words: an answer that holds them, or another of the plants found"],
  ["Backspace", "in the empty field: undo"],
  [".", "hand over"],
  [",", "take over"],
  ["?", "this list"],
  ["Esc", "empty the field, close what is open"],
];
export const leads = (name: string, standing: string) => `${name}: ${standing}.`;
export const nextIs = (prompt: string) => `Next: ${prompt}`;
export const due = "The verdict is due.";
