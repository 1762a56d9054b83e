/** Registers a device after an invitation, and signs in with it. */
import { startAuthentication, startRegistration } from "@simplewebauthn/browser";

type RegistrationOptions = Parameters<typeof startRegistration>[0]["optionsJSON"];
type SignInOptions = Parameters<typeof startAuthentication>[0]["optionsJSON"];

const cancelled = "Nothing came from the device. Please try again.";
const unreachable = "The server cannot be reached. Please try again.";

function say(sentence: string): void {
  const problem = document.getElementById("problem");
  if (problem === null) return;
  problem.hidden = sentence === "";
  problem.textContent = sentence;
}

/** The answer, or null after saying why there is none. */
async function post<T>(step: string, body: object): Promise<T | null> {
  try {
    const response = await fetch(`/editor/passkeys/${step}`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });
    const answer = (await response.json()) as T & { sentence?: string };
    if (response.ok) return answer;
    say(answer.sentence ?? unreachable);
  } catch {
    say(unreachable);
  }
  return null;
}

/** What the device gives; null when the person called it off or the device cannot. */
async function ask<T>(device: () => Promise<T>): Promise<T | null> {
  try {
    return await device();
  } catch {
    say(cancelled);
    return null;
  }
}

async function register(key: string): Promise<void> {
  say("");
  const optionsJSON = await post<RegistrationOptions>("registration", { key });
  const response = optionsJSON && (await ask(() => startRegistration({ optionsJSON })));
  const done = response && (await post<{ next: string }>("registered", { key, response }));
  if (done) location.assign(done.next);
}

async function signIn(next: string): Promise<void> {
  say("");
  const optionsJSON = await post<SignInOptions>("challenge", {});
  const response = optionsJSON && (await ask(() => startAuthentication({ optionsJSON })));
  const done = response && (await post<{ next: string }>("signed", { response, next }));
  if (done) location.assign(done.next);
}

// The key comes in the fragment, which no server and no log ever sees, and leaves the address at once.
const [, key = ""] = /^#key=([0-9a-f]+)$/i.exec(location.hash) ?? [];
if (key !== "") history.replaceState(null, "", location.pathname);
document.getElementById("register")?.addEventListener("click", () => register(key));
const next = document.getElementById("sign-in")?.dataset.next ?? "/editor";
document.getElementById("enter")?.addEventListener("click", () => signIn(next));
