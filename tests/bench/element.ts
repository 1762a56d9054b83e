/**
 * How long a shopper waits: from the press on "Next" until the next question is painted, in headless Chromium, over at
 * least 200 presses. Prints the figures; asserts nothing, for a machine may be busy. Run it with `npm run bench`.
 */

import { openChromium } from "../browser/chromium.ts";
import { answerAll, startCheck } from "../browser/element-driver.ts";
import { findJourneys } from "../browser/find-journeys.ts";
import { startServer } from "../browser/serve.ts";

const PRESSES = 240;

const server = await startServer();
const browser = await openChromium();
/** Records the waits in the page, from each press until the first task behind the frame that answers it. */
function recordWaits(): void {
  const waits: number[] = [];
  Object.assign(window, { waits });
  addEventListener(
    // A submit stays inside the shadow root; the click that causes it does not.
    "click",
    (event) => {
      const [button] = event.composedPath();
      if (!(button instanceof HTMLButtonElement)) return;
      const pressed = event.timeStamp;
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => waits.push(performance.now() - pressed);
        channel.port2.postMessage(0);
      });
    },
    { capture: true },
  );
}

const waits: number[] = [];
for (const { answers } of findJourneys().slice(0, 80)) {
  if (waits.length >= PRESSES) break;
  const page = await browser.newPage({ viewport: { width: 390, height: 800 } });
  await page.addInitScript(recordWaits);
  await page.goto(`${server.origin}/help`);
  await answerAll(await startCheck(page), answers);
  await page.waitForTimeout(50);
  waits.push(...(await page.evaluate(() => (window as unknown as { waits: number[] }).waits)));
  await page.close();
}
await browser.close();
await server.stop();

const sorted = waits.toSorted((a, b) => a - b);
const at = (share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]?.toFixed(1);
console.log(
  `answer to next question painted, ${sorted.length} presses: median ${at(0.5)} ms, 95 % within ${at(0.95)} ms, longest ${at(1)} ms`,
);
