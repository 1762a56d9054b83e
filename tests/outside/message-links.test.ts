import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeHandOver, writeSms } from "../../flows/desk/hand-over.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

const { shop } = shippedFlow().edition;

/** RFC 3986, 2.1 and 2.3. */
const unreserved = String.raw`[A-Za-z0-9\-._~]`;
const encoded = "%[0-9A-Fa-f]{2}";
/** RFC 3966, 3: global-number-digits = "+" *phonedigit DIGIT *phonedigit; phonedigit = DIGIT / visual-separator. */
const globalNumber = String.raw`\+[\d\-.()]*\d[\d\-.()]*`;
/** RFC 5724, 2.2, for global numbers: sms:recipient[,recipient …][?name=value[&name=value …]] */
const smsUri = new RegExp(
  `^sms:${globalNumber}(?:,${globalNumber})*(?:\\?${unreserved}+=(?:${unreserved}|${encoded})*(?:&${unreserved}+=(?:${unreserved}|${encoded})*)*)?$`,
);
/** RFC 6068, 2: mailto:[to][?hfname=hfvalue[&…]]; qchar = unreserved / pct-encoded / some-delims. */
const qchar = String.raw`(?:[A-Za-z0-9\-._~!$'()*+,;:@]|%[0-9A-Fa-f]{2})`;
const mailtoUri = new RegExp(`^mailto:${qchar}*(?:\\?${qchar}*=${qchar}*(?:&${qchar}*=${qchar}*)*)?$`);

describe("the grammars", () => {
  // Examples of RFC 5724, 2.5, and RFC 6068, 6.1, from memory.
  test.each(["sms:+15105550101", "sms:+15105550101,+15105550102", "sms:+15105550101?body=hello%20there"])(
    "take %s",
    (uri) => {
      expect(uri).toMatch(smsUri);
    },
  );
  test.each([
    "mailto:chris@example.com",
    "mailto:infobot@example.com?subject=current-issue",
    "mailto:?to=joe@example.com&cc=bob@example.com&body=hello",
  ])("take %s", (uri) => {
    expect(uri).toMatch(mailtoUri);
  });
  test.each(["sms:?body=hello", "sms:+1555?body=hello there", "sms:+1555?body=a&b"])("refuse %s", (uri) => {
    expect(uri).not.toMatch(smsUri);
  });
  test.each(["mailto:?subject=a b", "mailto:?subject=a&b&c", "mailto:?subject=50%"])("refuse %s", (uri) => {
    expect(uri).not.toMatch(mailtoUri);
  });
});

describe("the links of a case", () => {
  test("are links by these grammars and hold the message unchanged", () => {
    const name = fc.string({ unit: "grapheme" }).filter((text) => !text.includes("{"));
    fc.assert(
      fc.property(name, fc.stringMatching(/^[0-9A-HJKMNP-TV-Z]{4,12}[*~$=U]$/), (shopName, code) => {
        const { message, mailto } = makeHandOver({ ...shop, name: shopName }, "https://check.example/", code);
        const sms = writeSms(shop, "+1-555-0100", message) ?? "";
        expect(sms).toMatch(smsUri);
        expect(mailto).toMatch(mailtoUri);
        expect(decodeURIComponent(sms.replace(/^.*?body=/s, ""))).toBe(message);
        expect(new URL(mailto).searchParams.get("body")).toBe(message);
      }),
    );
  });
});
