import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { join } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";

/** A shop's own server: another origin than ours, and as strict as a policy can be. */
export interface HostServer {
  origin: string;
  close(): Promise<void>;
}

export async function serveHosts(ours: string): Promise<HostServer> {
  const policy = [
    "default-src 'none'",
    `script-src ${ours}`,
    `connect-src ${ours}`,
    "style-src 'self'",
    "require-trusted-types-for 'script'",
    "trusted-types 'none'",
  ].join("; ");
  const server = createServer(async (request, response) => {
    const { pathname, searchParams } = new URL(request.url ?? "/", "http://host");
    const text = await readFile(
      join(import.meta.dirname, "hosts", pathname.replaceAll("..", "")),
      "utf8",
    ).catch(() => null);
    const type = pathname.endsWith(".css") ? "text/css" : "text/html; charset=utf-8";
    const attributes = searchParams.get("attributes") ?? "";
    response.writeHead(text === null ? 404 : 200, {
      "Content-Type": type,
      "Content-Security-Policy": policy,
    });
    response.end(
      text?.replaceAll("{origin}", ours).replace("<leafturn-check>", `<leafturn-check ${attributes}>`) ?? "",
    );
  });
  await new Promise<void>((resolve) => server.listen(0, () => resolve()));
  const address = server.address();
  const port = address !== null && typeof address === "object" ? address.port : 0;
  return {
    origin: `http://localhost:${port}`,
    close: () => new Promise((resolve) => server.close(() => resolve())),
  };
}

/** What must stay empty on every page. */
export interface Faults {
  violations: string[];
  messages: string[];
}

/** Opens a page that records policy violations, errors, and everything written to the console. */
export async function openHost(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<{ page: Page; faults: Faults }> {
  const page = await browser.newPage(options);
  const faults: Faults = { violations: [], messages: [] };
  await page.exposeFunction("reportViolation", (text: string) => faults.violations.push(text));
  await page.addInitScript(() => {
    const { reportViolation } = window as unknown as { reportViolation(text: string): void };
    document.addEventListener("securitypolicyviolation", (event) => {
      if (event.blockedURI.endsWith("/favicon.ico")) return;
      reportViolation(`${event.effectiveDirective} ${event.blockedURI} ${event.sample}`);
    });
  });
  page.on("console", (message) => {
    if (!message.text().includes("favicon.ico")) faults.messages.push(message.text());
  });
  page.on("pageerror", (error) => faults.messages.push(error.message));
  await page.goto(url);
  return { page, faults };
}
