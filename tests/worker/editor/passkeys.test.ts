import { env } from "cloudflare:test";
import { expect, test } from "vitest";
import { addPerson } from "../../../worker/people/people-sql.ts";
import { openFreshApp, post } from "../fresh-app.ts";
import { sameOrigin } from "../sign-in.ts";

const ORIGIN = "https://shop.example";
const FLAGS = { present: 0x01, verified: 0x04 };

function toUrl(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replace(/=+$/, "");
}

function fromUrl(text: string): Uint8Array {
  return Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));
}

async function sha256(bytes: Uint8Array): Promise<Uint8Array> {
  return new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
}

/** An integer as DER writes it (ITU-T X.690): no leading zeros but one that keeps it positive. */
function writeInteger(bytes: Uint8Array): number[] {
  const from = bytes.findIndex((byte) => byte !== 0);
  const trimmed = [...bytes.subarray(from < 0 ? bytes.length - 1 : from)];
  const value = (trimmed[0] ?? 0) > 127 ? [0, ...trimmed] : trimmed;
  return [0x02, value.length, ...value];
}

/**
 * A device in software that signs as WebAuthn Level 2 says (sections 6.1 and 6.3.3), with a counter that stays at zero as in
 * synced passkeys: so it is the challenge alone that keeps an answer from being used again.
 */
async function makeDevice(name: string) {
  const pair = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, true, [
    "sign",
    "verify",
  ]);
  if (!("publicKey" in pair)) throw new Error("A pair of keys was asked for.");
  const { privateKey } = pair;
  const point = new Uint8Array((await crypto.subtle.exportKey("raw", pair.publicKey)) as ArrayBuffer);
  // COSE_Key for ES256 (RFC 9053): kty 2, alg -7, crv 1, x, y.
  const key = [0xa5, 1, 2, 3, 0x26, 0x20, 1, 0x21, 0x58, 0x20, ...point.subarray(1, 33)];
  const publicKey = [...key, 0x22, 0x58, 0x20, ...point.subarray(33)];
  const id = toUrl(crypto.getRandomValues(new Uint8Array(16)));
  await env.DB.prepare(addPerson({ id: name, name, roles: ["editor"], now: 0 })).run();
  await env.DB.prepare(
    "INSERT INTO passkeys (id, person, public_key, counter, transports, made_at) VALUES (?1, ?2, ?3, 0, '[]', 0)",
  )
    .bind(id, name, btoa(String.fromCharCode(...publicKey)))
    .run();

  async function sign(challenge: string, origin = ORIGIN) {
    const client = { type: "webauthn.get", challenge, origin, crossOrigin: false };
    const clientData = new TextEncoder().encode(JSON.stringify(client));
    const place = await sha256(new TextEncoder().encode("shop.example"));
    const data = new Uint8Array([...place, FLAGS.present | FLAGS.verified, 0, 0, 0, 0]);
    const signed = new Uint8Array([...data, ...(await sha256(clientData))]);
    const how = { name: "ECDSA", hash: "SHA-256" };
    const raw = new Uint8Array(await crypto.subtle.sign(how, privateKey, signed));
    const parts = [...writeInteger(raw.subarray(0, 32)), ...writeInteger(raw.subarray(32))];
    return {
      ...{ id, rawId: id, type: "public-key", clientExtensionResults: {} },
      response: {
        clientDataJSON: toUrl(clientData),
        authenticatorData: toUrl(data),
        signature: toUrl(new Uint8Array([0x30, parts.length, ...parts])),
      },
    };
  }
  return { sign };
}

type Signed = Awaited<ReturnType<Awaited<ReturnType<typeof makeDevice>>["sign"]>>;

function openDoor() {
  const { ask, clock } = openFreshApp();
  const send = async (path: string, body: unknown) => {
    const { headers, ...init } = post(body);
    return ask(`/editor/passkeys/${path}`, { ...init, headers: { ...headers, ...sameOrigin } });
  };
  return {
    clock,
    getChallenge: async () => (await (await send("challenge", {})).json<{ challenge: string }>()).challenge,
    enter: async (response: Signed) => (await send("signed", { response })).status,
  };
}

test("a challenge lets its device in once; the same answer does not come in again", async () => {
  const device = await makeDevice("Ina Once");
  const door = openDoor();
  const answer = await device.sign(await door.getChallenge());
  expect(await door.enter(answer)).toBe(200);
  expect(await door.enter(answer)).toBe(403);
  // Nor do two copies that come at the same time both get in.
  const twice = await device.sign(await door.getChallenge());
  const statuses = await Promise.all([door.enter(twice), door.enter(twice), door.enter(twice)]);
  expect(statuses.sort()).toEqual([200, 403, 403]);
  // The device itself is as good as before.
  expect(await door.enter(await device.sign(await door.getChallenge()))).toBe(200);
});

test("a try that fails uses its challenge up", async () => {
  const device = await makeDevice("Una Fail");
  const door = openDoor();
  const challenge = await door.getChallenge();
  const good = await device.sign(challenge);
  const spoiled = fromUrl(good.response.signature);
  spoiled[spoiled.length - 1] = (spoiled.at(-1) ?? 0) ^ 1;
  const bad = { ...good, response: { ...good.response, signature: toUrl(spoiled) } };
  expect(await door.enter(bad)).toBe(403);
  expect(await door.enter(good)).toBe(403);
});

test("a challenge that we never gave, that is too old, or that was answered elsewhere opens nothing", async () => {
  const device = await makeDevice("Ode Late");
  const door = openDoor();
  const invented = toUrl(crypto.getRandomValues(new Uint8Array(32)));
  expect(await door.enter(await device.sign(invented))).toBe(403);
  const elsewhere = await device.sign(await door.getChallenge(), "https://elsewhere.example");
  expect(await door.enter(elsewhere)).toBe(403);
  const late = await device.sign(await door.getChallenge());
  door.clock.now += 5 * 60_000 + 1;
  expect(await door.enter(late)).toBe(403);
  expect(await door.enter(await device.sign(await door.getChallenge()))).toBe(200);
});
