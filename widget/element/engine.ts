/** The engine in the bundle, open to the tests that run the built file itself against the server. */
export { readLink } from "../../flows/case-link.ts";
export { openFlow } from "../../flows/flow.ts";
export { nextQuestion } from "../../flows/next-question.ts";
export { addProse, unpackFirst } from "../../flows/parcel/unpack.ts";
export { makePlan } from "../../flows/plan.ts";
export { judge } from "../../flows/verdict.ts";
