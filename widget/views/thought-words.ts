/* What the verdict says to the owner's own idea and questions. */
export const yourIdea = "Your own idea";
export const agrees = (name: string) =>
  `You thought of this: ${name}. The signs agree with you. What speaks for it stands below.`;
export const speaksAgainst = (name: string, reason: string) =>
  `You thought of this: ${name}. One thing speaks against it. ${reason}.`;
export const weaker = (name: string, reason: string) =>
  `You thought of this: ${name}. One thing speaks for it. ${reason}. But other signs weigh more.`;
export const nothingSpeaks = (name: string) =>
  `You thought of this: ${name}. Nothing you told us speaks for it.`;
export const yourQuestions = "You asked";
export const notYet = "We can tell once we know what it is. Bring a sample, and keep it apart until then.";
export const notYetSpread = "We do not know yet. Keep it apart from your other plants until we do.";
export const notListed =
  "Our lists name no harm to pets or people from this plant. Still, keep it out of their mouths.";
export const eatUnknown = "Eat no plant whose name you do not know.";
export const eatNever = (host: string) => `This is no food plant: ${host}. Do not eat it.`;
export const eatSick =
  "Eat only clean, sound parts, and wash them well. Throw away what is spotted, sticky or moldy.";
export const eatLabel =
  "After a spray, the label says how long to wait. Eat nothing from the plant before that.";
