/** Put in by the build: where the conversation's program lies. */
declare const REST: import("./import-whole.ts").ProgramFile;
/** Put in by the build: where the views of the verdict lie. */
declare const VERDICT: import("./import-whole.ts").ProgramFile;
/** Put in by the build: where the drawings' program lies. */
declare const PICTURES: import("./import-whole.ts").ProgramFile;
/** Put in by the build: where the part lies that reads typed words. */
declare const SAY: import("./import-whole.ts").ProgramFile;
/** Put in by the build: the shop's branches, for a shopper whom nothing else reaches. */
declare const PHONES: readonly { id: string; name: string; phone: string }[];
