/** Put in by the build: where the rest of the program lies, seen from the folder /embed/. */
declare const REST: string;
/** The integrity of that file. */
declare const REST_INTEGRITY: string;
/** Put in by the build: the shop's branches, for a shopper whom nothing else reaches. */
declare const PHONES: readonly { id: string; name: string; phone: string }[];
