export const roles = ["staff", "editor", "publisher"] as const;
export type Role = (typeof roles)[number];

/** How someone proved who they are. */
export const proofs = ["key", "passkey"] as const;
export type Proof = (typeof proofs)[number];

/** What a key opens: the desk, or the registration of a device. */
export const keyPurposes = ["desk", "invitation"] as const;
export type KeyPurpose = (typeof keyPurposes)[number];

/** Someone who may sign in. */
export interface Person {
  id: string;
  name: string;
  roles: Role[];
}

/** Someone who is signed in. */
export interface SignedIn extends Person {
  proof: Proof;
}

/** What each role asks for: whoever changes what shoppers read has to hold a device in hand. */
const enough: Record<Role, readonly Proof[]> = {
  staff: ["key", "passkey"],
  editor: ["passkey"],
  publisher: ["passkey"],
};

export function mayAct(person: SignedIn, role: Role): boolean {
  return person.roles.includes(role) && enough[role].includes(person.proof);
}

/** Roles as the database holds them. */
export function readRoles(text: string): Role[] {
  return roles.filter((role) => text.includes(` ${role} `));
}

export function writeRoles(held: readonly Role[]): string {
  return ` ${held.join(" ")} `;
}
