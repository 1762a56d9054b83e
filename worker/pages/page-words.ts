/** Sentences that only pages of the server say. */
export const pageWords = {
  haveCode: "Have a code?",
  codeField: "Your code",
  openCode: "Open",
  codeEmpty: "Type the code into the field below. Spaces and small letters are fine.",
  codeTitle: "We could not open this code",
  startCheck: "Start a plant check",
  notFoundTitle: "This page does not exist",
  notFound: "The address may have a slip in it. You can start a check, or open one by its code.",
  tooLongTitle: "This link is too long",
  tooLong: "It cannot be one of ours. You can start a check, or open one by its code.",
  methodTitle: "That does not work here",
  method: "This page can only be read.",
  errorTitle: "Something went wrong on our side",
  error: "Please try again. Your answers are in the link, so nothing is lost.",
  skip: "Skip to the main part",
} as const;
