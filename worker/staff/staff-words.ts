/** Sentences of the desk's pages behind the sign-in. */
export const staffWords = {
  room: "the desk",
  phoneDesk: "Phone desk",
  signIn: "Sign in to the desk",
  signedIn: "You are signed in",
} as const;
