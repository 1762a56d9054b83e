import type { Shop } from "../../flows/edition.ts";
import { peopleWords } from "../people/people-words.ts";
import type { SignedIn } from "../people/person.ts";
import { PrivatePage } from "../people/private-page.tsx";
import { deskLinks, SIGN_IN, SIGN_OUT } from "./desk-links.ts";
import { staffWords } from "./staff-words.ts";

interface SignInPageProps {
  shop: Shop;
  person: SignedIn | null;
  /** Where to go after signing in. */
  next: string;
  /** What went wrong; empty when nothing did. */
  problem: string;
  /** Whether someone was on the way to another page, which an open tab can take up again. */
  isOnTheWay: boolean;
}

/** Asks for the personal key. The key comes in the fragment of a link, which no server and no log ever sees. */
export function SignInPage({ shop, person, next, problem, isOnTheWay }: SignInPageProps) {
  return (
    <PrivatePage
      title={person ? staffWords.signedIn : staffWords.signIn}
      room={staffWords.room}
      links={deskLinks}
      here={SIGN_IN}
      signOut={SIGN_OUT}
      script="/assets/sign-in.js"
      {...{ shop, person }}
    >
      <form class="lt-card" method="post" action={SIGN_IN}>
        {problem && (
          <p class="lt-problem" id="problem" role="alert">
            {problem}
          </p>
        )}
        <input type="hidden" name="next" value={next} />
        <label class="lt-label" for="key">
          {peopleWords.keyField}
        </label>
        <p class="lt-hint" id="key-hint">
          {peopleWords.keyHint}
        </p>
        <input
          class="lt-input"
          id="key"
          name="key"
          type="password"
          autocomplete="current-password"
          maxlength={400}
          required
          aria-describedby={problem ? "problem key-hint" : "key-hint"}
          aria-invalid={problem ? "true" : undefined}
        />
        <p class="lt-actions">
          <button class="lt-button" type="submit" id="enter">
            {peopleWords.signIn}
          </button>
          {isOnTheWay && (
            <a class="lt-link" href={next}>
              {peopleWords.goOn}
            </a>
          )}
        </p>
      </form>
    </PrivatePage>
  );
}

/** Takes the key out of the address into the form. The press stays with the person. */
export const signInScript = `const [, key] = /^#key=([0-9a-f]+)$/i.exec(location.hash) ?? [];
if (key) {
  document.getElementById("key").value = key;
  history.replaceState(null, "", location.pathname + location.search);
  document.getElementById("enter").focus();
}
`;
