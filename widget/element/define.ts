/** Registers the element. A page that loads the script twice keeps the first one. */
import { LeafturnCheck } from "./leafturn-check.ts";

if (customElements.get("leafturn-check") === undefined)
  customElements.define("leafturn-check", LeafturnCheck);
