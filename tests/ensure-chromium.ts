/** Makes sure that the browser tests have a Chromium: installs Debian's where that is possible, else says what to do. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const places = [
  process.env.CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
];

if (!places.some((place) => place !== undefined && existsSync(place))) {
  const mayInstall = process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (mayInstall) {
    console.error("Chromium is missing. Installing it with apt-get …");
    run("apt-get", ["update", "-qq"]);
    run("apt-get", ["install", "-y", "-qq", "chromium", "poppler-utils"]);
  }
  if (!existsSync("/usr/bin/chromium")) {
    console.error("The browser tests need Chromium: install it, or set CHROMIUM to the path of one.");
    process.exit(1);
  }
}

function run(command: string, options: string[]): void {
  spawnSync(command, options, {
    stdio: ["ignore", "ignore", "inherit"],
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
}
