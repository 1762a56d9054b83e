/** Signing in with a device: WebAuthn, by SimpleWebAuthn. */
import {
  type AuthenticationResponseJSON,
  generateAuthenticationOptions,
  generateRegistrationOptions,
  type PublicKeyCredentialCreationOptionsJSON,
  type PublicKeyCredentialRequestOptionsJSON,
  type RegistrationResponseJSON,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
  type WebAuthnCredential,
} from "@simplewebauthn/server";
import { useKey } from "../people/keys.ts";
import { type Person, readRoles } from "../people/person.ts";
import { hashToken, isToken, type RandomBytes } from "../people/token.ts";
import { noteHistory } from "./history.ts";

/** Long enough to find the device. */
const CHALLENGE_LIFE = 5 * 60_000;

/** Who asks: the server as the browser knows it. */
export interface Place {
  /** The host's name, which a passkey is bound to. */
  rpID: string;
  origin: string;
  now: number;
  randomBytes: RandomBytes;
}

export function placeOf(url: string, now: number, randomBytes: RandomBytes): Place {
  const { hostname, origin } = new URL(url);
  return { rpID: hostname, origin, now, randomBytes };
}

const INVITED = `SELECT p.id, p.name, p.roles FROM keys k JOIN people p ON p.id = k.person
  WHERE k.hash = ?1 AND k.purpose = 'invitation' AND k.used_at IS NULL AND k.revoked_at IS NULL
  AND p.revoked_at IS NULL AND (k.expires_at IS NULL OR k.expires_at > ?2)`;

/** Whom an invitation is for, without using it up; null when it opens nothing. */
export async function findInvited(database: D1Database, key: string, now: number): Promise<Person | null> {
  if (!isToken(key)) return null;
  const row = await database
    .prepare(INVITED)
    .bind(await hashToken(key), now)
    .first<{ id: string; name: string; roles: string }>();
  return row && { ...row, roles: readRoles(row.roles) };
}

/** What the browser needs to make a passkey for the one who was invited. */
export async function beginRegistration(
  database: D1Database,
  key: string,
  place: Place,
): Promise<PublicKeyCredentialCreationOptionsJSON | null> {
  const person = await findInvited(database, key, place.now);
  if (person === null) return null;
  const options = await generateRegistrationOptions({
    rpName: "Leafturn",
    rpID: place.rpID,
    userName: person.name,
    userID: new Uint8Array(new TextEncoder().encode(person.id)),
    challenge: new Uint8Array(place.randomBytes(32)),
    attestationType: "none",
    authenticatorSelection: { residentKey: "required", userVerification: "required" },
  });
  await keepChallenge(database, options.challenge, person.id, place.now);
  return options;
}

/** Takes the new passkey in, uses the invitation up, and locks out every earlier device of the person. */
export async function finishRegistration(
  database: D1Database,
  key: string,
  response: RegistrationResponseJSON,
  place: Place,
): Promise<Person | null> {
  const { rpID, origin, now } = place;
  const invited = await findInvited(database, key, now);
  if (invited === null) return null;
  const verified = await verifyRegistrationResponse({
    response,
    expectedChallenge: (challenge) => takeChallenge(database, challenge, invited.id, now),
    expectedOrigin: origin,
    expectedRPID: rpID,
    requireUserVerification: true,
  });
  if (!verified.verified) return null;
  const person = await useKey(database, key, "invitation", now);
  if (person === null) return null;
  const { credential } = verified.registrationInfo;
  await database.batch([
    database
      .prepare("UPDATE passkeys SET revoked_at = ?2 WHERE person = ?1 AND revoked_at IS NULL")
      .bind(person.id, now),
    database.prepare("DELETE FROM sessions WHERE person = ?1 AND proof = 'passkey'").bind(person.id),
    database
      .prepare(
        "INSERT INTO passkeys (id, person, public_key, counter, transports, made_at) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
      )
      .bind(
        ...[credential.id, person.id, toBase64(credential.publicKey), credential.counter],
        ...[JSON.stringify(credential.transports ?? []), now],
      ),
    noteHistory(database, { at: now, who: person, what: "device-registered", subject: "", why: "" }),
  ]);
  return person;
}

/** What the browser needs to sign in with whatever passkey it holds for this server. */
export async function beginSignIn(
  database: D1Database,
  { rpID, now, randomBytes }: Place,
): Promise<PublicKeyCredentialRequestOptionsJSON> {
  const options = await generateAuthenticationOptions({
    rpID,
    challenge: new Uint8Array(randomBytes(32)),
    userVerification: "required",
  });
  await keepChallenge(database, options.challenge, "", now);
  return options;
}

interface PasskeyRow {
  person: string;
  name: string;
  roles: string;
  publicKey: string;
  counter: number;
  transports: string;
}

/** Who signs in; null for a device that is unknown, taken back, or does not prove itself. */
export async function finishSignIn(
  database: D1Database,
  response: AuthenticationResponseJSON,
  { rpID, origin, now }: Place,
): Promise<Person | null> {
  const row = await database
    .prepare(
      `SELECT k.person, p.name, p.roles, k.public_key AS publicKey, k.counter, k.transports
       FROM passkeys k JOIN people p ON p.id = k.person
       WHERE k.id = ?1 AND k.revoked_at IS NULL AND p.revoked_at IS NULL`,
    )
    .bind(response.id)
    .first<PasskeyRow>();
  if (row === null) return null;
  const { verified, authenticationInfo } = await verifyAuthenticationResponse({
    response,
    expectedChallenge: (challenge) => takeChallenge(database, challenge, "", now),
    expectedOrigin: origin,
    expectedRPID: rpID,
    requireUserVerification: true,
    credential: {
      id: response.id,
      publicKey: fromBase64(row.publicKey),
      counter: row.counter,
      transports: JSON.parse(row.transports) as NonNullable<WebAuthnCredential["transports"]>,
    },
  });
  if (!verified) return null;
  // Of two copies of a device that counts, only the one that is ahead gets in.
  const counted = await database
    .prepare(
      "UPDATE passkeys SET counter = ?2, used_at = ?3 WHERE id = ?1 AND counter = ?4 AND revoked_at IS NULL",
    )
    .bind(response.id, authenticationInfo.newCounter, now, row.counter)
    .run();
  return counted.meta.changes === 1 ? { id: row.person, name: row.name, roles: readRoles(row.roles) } : null;
}

async function keepChallenge(
  database: D1Database,
  challenge: string,
  person: string,
  now: number,
): Promise<void> {
  await database.batch([
    database.prepare("DELETE FROM challenges WHERE expires_at <= ?1").bind(now),
    database
      .prepare("INSERT INTO challenges (challenge, person, expires_at) VALUES (?1, ?2, ?3)")
      .bind(challenge, person, now + CHALLENGE_LIFE),
  ]);
}

/** Whether we asked this, of this person, not long ago, and for the first time. */
async function takeChallenge(
  database: D1Database,
  challenge: string,
  person: string,
  now: number,
): Promise<boolean> {
  const { meta } = await database
    .prepare("DELETE FROM challenges WHERE challenge = ?1 AND person = ?2 AND expires_at > ?3")
    .bind(challenge, person, now)
    .run();
  return meta.changes === 1;
}

function toBase64(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes));
}

function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
}
