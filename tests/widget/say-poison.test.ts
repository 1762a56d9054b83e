import { expect, it } from "vitest";
import { sayPoison } from "../../widget/views/report.ts";
import { poisonPeople, poisonUnknown } from "../../widget/views/words.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

it("says what is not known about pets, also where the plant is known to harm people", () => {
  const [host] = shippedFlow().edition.hosts;
  if (!host) throw new Error("No host plants.");
  const said = sayPoison({ ...host, poisonous: { people: "yes", pets: "unknown", note: null } });
  expect(said).toEqual([poisonPeople(host.name), poisonUnknown(host.name)]);
});
