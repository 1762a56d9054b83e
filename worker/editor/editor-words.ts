/** Sentences of the editor's room. */
export const editorWords = {
  room: "the editor's room",
  signIn: "Sign in to the editor's room",
  signInLead: "Sign in with the device that you registered: its fingerprint, face, PIN, or a security key.",
  signInButton: "Sign in with this device",
  needsScript:
    "Signing in needs JavaScript, because the browser has to ask your device. Everything after it works without.",
  lostDevice: "Device lost or new? Ask for a new invitation. It locks the old device out.",
  refused:
    "This device does not open the editor's room. It may have been taken back. Ask for a new invitation.",
  cancelled: "Nothing came from the device. Please try again.",
  invitation: "Register your device",
  invitationLead:
    "This invitation is for one device, and for one use. Your browser asks for a fingerprint, face, PIN, or security key. Nothing of that leaves the device.",
  register: "Register this device",
  invitationBad:
    "This invitation does not work any more. It was used, taken back, or is too old. Ask for a new one.",
  tooMany: "Too many tries. Please wait a few minutes.",
  drafts: "Drafts",
  draftsLead:
    "A draft is a copy of the guide that you can change. Nobody else sees it until it is published.",
  newDraft: "New draft",
  titleField: "What is it about?",
  titleBad: "Please give it a title of 1 to 120 characters.",
  begin: "Begin a draft",
  noDrafts: "There is no draft yet.",
  importTitle: "Bring in a folder",
  importLead:
    "A zip of Markdown and YAML files, as the export gives it. It becomes a new draft; what is live stays as it is.",
  importField: "Zip file",
  importButton: "Bring in as a draft",
  history: "History",
  tree: "The tree",
  noFiles:
    "The live guide was stored without its files, so there is nothing to edit yet. Bring in its folder as a zip below.",
  gone: "There is no such draft.",
  closed: "This draft is closed. Open it again to go on, or begin a new one.",
  tooLong:
    "This text is longer than one file may be (262,144 characters). It was not saved. Please shorten it.",
  publisherOnly: "Only a publisher can do this. Nothing was changed.",
} as const;

/** A day and time as the room shows it, by the world's clock. */
export function sayTime(at: number): string {
  return `${new Date(at).toISOString().slice(0, 16).replace("T", " ")} UTC`;
}
