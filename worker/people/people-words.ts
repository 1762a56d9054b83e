/** Sentences about signing in. */
export const peopleWords = {
  signIn: "Sign in",
  signOut: "Sign out",
  signedInAs: (name: string) => `Signed in as ${name}`,
  signedOut: "You are signed out.",
  keyField: "Your key",
  keyHint: "Open your key link, and the key is filled in. Or paste the link or the key here.",
  goOn: "Signed in on another tab? Go on",
  refusals: {
    "signed-out": "",
    over: "You are not signed in any more. Please sign in again. What you typed is kept.",
    "not-yours": "You are signed in, but this part is not open to you.",
    "out-of-reach": "We cannot reach our records right now. Please try again in a minute.",
  },
  noKey: "Please paste your key.",
  wrongKey: "This key does not open the desk. It may have been taken back. Ask for a new one.",
  tooMany: (seconds: number) => `Too many tries. Please wait ${sayWait(seconds)}.`,
  needsHttps: "Signing in needs a safe connection. Please use the address that starts with https.",
  crossSiteTitle: "This did not come from our page",
  crossSite: "Nothing was changed. Please open the page here and try again.",
} as const;

function sayWait(seconds: number): string {
  const minutes = Math.ceil(seconds / 60);
  return minutes === 1 ? "a minute" : `${minutes} minutes`;
}
