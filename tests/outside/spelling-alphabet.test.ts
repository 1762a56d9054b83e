import { expect, test } from "vitest";
import { spellCode } from "../../flows/desk/spelling.ts";

/**
 * The radiotelephony spelling alphabet of ICAO Annex 10, volume II, 5.2.1.3, figure 5-1, as the UK Civil Aviation Authority
 * prints it: UK Reg (EU) 923/2012, SERA.14020, table S14-2, regulatorylibrary.caa.co.uk.
 */
const table =
  "A Alfa B Bravo C Charlie D Delta E Echo F Foxtrot G Golf H Hotel I India J Juliett K Kilo L Lima M Mike " +
  "N November O Oscar P Papa Q Quebec R Romeo S Sierra T Tango U Uniform V Victor W Whiskey X X-ray Y Yankee Z Zulu";

test("letters are spelled as ICAO spells them", () => {
  const cells = table.split(" ");
  const letters = cells.filter((_, i) => i % 2 === 0);
  expect(letters).toHaveLength(26);
  expect(spellCode(letters.join("")).map(({ word }) => word)).toEqual(cells.filter((_, i) => i % 2 === 1));
});
