import type { Fact, Method, NeverWhen, Phase, Spreading } from "../../flows/edition.ts";
import type { SampleReason } from "../../flows/second-look.ts";

/*
 * Every sentence the interface itself says, one export each, so that a bundle holds only those it says. The words of the
 * content live in the edition.
 */
export const check = "Plant check";
export const intro =
  "Answer a few short questions. Then we tell you what we think it is, why, and what to do.";
export const soFar = "What you told us";
export const change = "Change";
export const changeThis = (prompt: string) => `Change your answer to: ${prompt}`;
export const keepAnswer = "Keep my answer";
export const saveAnswer = "Save this answer";
export const next = "Next";
export const back = "One step back";
export const startAgain = "Start again";
export const question = (number: number) => `Question ${number}`;
export const changing = "Change this answer";
export const whyWeAsk = "Why we ask";
export const howToCheck = "How to check";
export const inPictures = "The answers in pictures";
export const pressHint = "Press the part that has it, or choose from the list below it.";
export const notSure = "I’m not sure";
export const yes = "Yes";
export const no = "No";
export const seen = (finding: string) => `Have you seen this: ${finding}?`;

export const sayIt = "Tell us in your own words";
export const readIt = "Read this";
export const notRead = "We cannot read that just now. Please go on with the questions.";

export const plantName = "Name of the plant";
export const plantHint = "Its everyday name is fine. We can cope with spelling slips.";
export const findPlant = "Find this plant";
export const plantUnknown = "I don’t know";
export const didYouMean = (typed: string) => `Which plant do you mean by “${typed}”?`;
export const noneOfThese = "None of these. Let me type it again";
export const goOnWithout = "Go on without the name";
export const thisPlant = "This is my plant";
export const typedUnknown = (typed: string) =>
  `We do not know a plant called “${typed}”. Try another name, or go on without it.`;

export const verdict = "What we think";
export const suspected = (name: string) => `This is most likely: ${name}`;
export const leaning = (name: string) => `This looks like: ${name}, but we are not sure`;
export const undetermined = "We cannot tell from this. Please bring a sample.";
export const undeterminedWhy =
  "Too many things could look like this. A close look at a leaf is better than a guess. Some gentle steps help in the meantime.";
export const howSure = {
  suspected: "The signs point one way. Only a look at the plant itself can confirm it.",
  leaning: "More than one cause fits. Do the check below, or bring a sample.",
};
export const alsoCalled = (names: string) => `Also called: ${names}`;
export const beside = "Also present, we think";
export const whatItIs = "What it is";
export const whatBringsItOn = "What brings it on";
export const speaksFor = "What speaks for it";
export const speaksAgainst = "What speaks against it";
export const nothingAgainst = "Nothing you told us speaks against it.";
export const youSaw = (finding: string) => `You saw: ${finding}`;
export const youFound = (finding: string) => `You looked and found: ${finding}`;
export const hostProne = (host: string) => `This is a common trouble on this plant: ${host}`;
export const hostImmune = (host: string) => `This plant hardly ever gets it: ${host}`;
export const hostElsewhere = (host: string) => `It is mostly seen on other plants than this: ${host}`;
export const whatElse = "What else it could be";
export const closest = "What comes closest";
export const checkThat = "The check that tells";
export const checkApart = (one: string, other: string) => `To tell ${one} from ${other}:`;

export const plan = "What to do";
export const phases = {
  today: "Today",
  "next-days": "In the next days",
  prevent: "To keep it from coming back",
} satisfies Record<Phase, string>;
export const methods = {
  cultural: "Care",
  mechanical: "By hand",
  biological: "Living helper",
  chemical: "Spray or product",
} satisfies Record<Method, string>;
export const treats = (names: string) => `Helps against: ${names}`;
export const amount = "How much";
export const needs = "You need";
export const repeat = "Repeat";
export const minutes = (count: number) => (count === 1 ? "about a minute" : `about ${count} minutes`);
export const everyDays = (from: number, to: number) =>
  from === to ? (from === 1 ? "every day" : `every ${from} days`) : `every ${from} to ${to} days`;
export const times = (from: number, to: number) =>
  from === to ? (from === 1 ? "once" : `${from} times`) : `${from} to ${to} times`;
export const until = (end: string) => `until ${end}`;
export const care = "Take care";
export const labelIsLaw = "The label is the law: use it only where and how the label says.";
export const leftOut = "Left out for your safety";
export const because = {
  eaten: "the plant is or may be eaten",
  pets: "there are or may be pets",
  children: "there are or may be small children",
  "flowering-or-outdoors": "it is or may be in flower or outdoors",
  "harmed-by-soap": "soap can harm this plant",
  "harmed-by-oil": "oil can harm this plant",
  "harmed-by-alcohol": "alcohol can harm this plant",
  "harmed-by-wet-leaves": "wet leaves can harm this plant",
  "succulent-kept-dry": "this plant must stay dry",
} satisfies Record<NeverWhen, string>;
export const planComing = "The steps are on their way. This takes a moment.";
export const planMissing = "We could not fetch the steps. Your answers are safe. Try again, or call us:";
export const tryAgain = "Try again";
export const unknownHost = "We do not know which plant it is. So we left out steps that hurt some plants.";

export const willItLive = "Will it live?";
export const doesItSpread = "Will it spread?";
export const spreads = {
  "yes-fast": "Yes, and fast. Keep it away from other plants.",
  "yes-slow": "Yes, but slowly.",
  no: "No.",
} satisfies Record<Spreading, string>;
export const prevention = "Keep it from coming back";
export const whenToGiveUp = "When to stop";
export const whenToBringIn = "When to bring it in";

export const household = "For your home";
export const households = {
  eaten: {
    yes: "You eat this plant. The plan holds only steps that are safe for food plants.",
    no: "You do not eat this plant.",
    unknown: "We do not know if it is eaten. So we plan as if it is.",
  },
  pets: {
    yes: "You have pets. Keep them away while you treat the plant.",
    no: "You have no pets.",
    unknown: "We do not know if you have pets. So we plan as if you do.",
  },
  children: {
    yes: "Small children live here. Keep sprays and the plant out of reach.",
    no: "No small children live here.",
    unknown: "We do not know if small children live here. So we plan as if they do.",
  },
  "flowering-or-outdoors": {
    yes: "Bees may visit it. The plan keeps them safe.",
    no: "No bees will visit it.",
    unknown: "We do not know if bees can reach it. So we plan as if they can.",
  },
} satisfies Record<Fact, Record<"yes" | "no" | "unknown", string>>;
export const poisonPeople = (host: string) => `Poisonous to people if eaten: ${host}. Keep it out of reach.`;
export const poisonPets = (host: string) => `Poisonous to pets if chewed: ${host}. Keep it out of reach.`;
export const poisonUnknown = (host: string) =>
  `We do not know how safe this plant is for pets and people: ${host}. Keep it out of reach.`;
export const poisonNoHost = "We do not know the plant. Some plants are poisonous, so keep it out of reach.";

export const sample = "Bring a sample";
export const sampleAsk = "We will look at it with you. This is how to bring it:";
export const samplePlain = "Want us to look? This is how to bring it:";
export const branches = "Where to bring it";
export const hours = "Open";
export const phone = "Phone";

export const keep = "Keep this check";
export const keepHint = "Save the link, or read the code out to us over the phone.";
export const link = "Link";
export const code = "Code";
export const copyLink = "Copy the link";
export const copied = "The link is copied.";
export const notCopied = "We could not copy it. Please select the link above.";
export const share = "Share";
export const print = "Print this check";
export const slipLink = "Print a slip for the sample";
export const sources = "Where this comes from";

export const notes = "Please note";
export const dropped = (prompts: string) =>
  `We set these answers aside, because they no longer fit: ${prompts}`;
export const linkProblems = "Not all of this link could be read.";
export const editionUnknown = (number: string) =>
  `This link was made with guide number ${number}, which we no longer have. We used today’s guide.`;
export const editionDiffers = (then: string, now: string) =>
  `Our guide has changed since this link was made. Then we said: “${then}” Now we say: “${now}”`;
export const editionAsksMore = (then: string) =>
  `Our guide has changed since this link was made. Then we said: “${then}” Now we need to ask a little more.`;
export const editionPlanDiffers =
  "Our guide has changed since this link was made. The steps below are the new ones.";
export const answerUnknown = "That is not one of the answers. Please choose again.";

export const lookAgain = "Look again";
export const lookAgainHint = "In a week or so, tell us how it goes. Then the next step follows from it.";
export const treated = "Have you been treating it? Then tell us below. If not:";
export const showPlan = "Show the plan again";
export const lookTitle = "What we make of it";
export const lookFinish = "Good. Finish the rounds you have begun. Then keep it from coming back.";
export const lookContinue = "Go on with the same steps.";
export const lookTechnique =
  "Do them with care: wet the backs of the leaves, mix as the label says, and keep to the days.";
export const lookMend = (what: string) => `This time, mind what went wrong: ${what}.`;
export const lookStepUp = (names: string) =>
  `Now go one step further: ${names}. Keep up the gentle steps too.`;
export const lookReopen = "You saw something new. This is what we think of all of it together.";
export const lookSample = {
  "two-rounds": "Two looks and no better: bring a sample, so that we can see what it is.",
  "worse-under-chemical": "It got worse under a spray: bring a sample, and do not spray again before that.",
  "tried-unknown": "We do not know what was done so far: bring a sample, and do not spray before that.",
  "nothing-left": "The plan has nothing stronger left: bring a sample.",
  undetermined: "We still cannot tell what it is: bring a sample.",
  "last-look": "You looked often enough: bring a sample, so that we can look too.",
} satisfies Record<SampleReason, string>;
export const calendarFile = "Put these days into my calendar";
