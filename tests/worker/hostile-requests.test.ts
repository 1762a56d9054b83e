import { expect, test, vi } from "vitest";
import { hostileRequests } from "../support/hostile-requests.ts";
import { bundled, openFreshApp } from "./fresh-app.ts";

const REQUESTS = 1500;

test("broken links, codes, bodies and headers get an answer that is no fault of ours", async () => {
  const errors = vi.spyOn(console, "error");
  const { ask, app } = openFreshApp();
  const requests = hostileRequests(bundled, 20_260_101, [...new Set(app.routes.map(({ path }) => path))]);
  const seen = new Map<number, number>();
  for (let i = 0; i < REQUESTS; i++) {
    const { path, ...init } = requests.next().value;
    const response = await ask(path, init);
    await response.arrayBuffer();
    seen.set(response.status, (seen.get(response.status) ?? 0) + 1);
    if (response.status >= 500) expect.soft({ path, ...init }).toBe(`not answered with ${response.status}`);
    expect.soft(response.headers.get("content-security-policy"), path).toContain("default-src 'none'");
  }
  // Both sides are reached: what can be read is answered, what cannot is refused.
  expect(seen.get(200)).toBeGreaterThan(REQUESTS / 20);
  expect([...seen.keys()].some((status) => status >= 400)).toBe(true);
  expect(errors).not.toHaveBeenCalled();
}, 120_000);
