/**
 * ITU-T E.164: at most 15 digits with the country code, which does not begin with 0. Numbers kept for fiction:
 * 555-0100 to 555-0199 in the North American plan. Compared with libphonenumber-js 1.13.16 (MIT).
 */
import { globSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { isPossiblePhoneNumber } from "libphonenumber-js/max";
import { describe, expect, it } from "vitest";
import { PhoneNumber } from "../../src/model/orders/order.ts";

describe("E.164", () => {
  it.each(["+12125550100", "+447700900000", "+442079460000", "+61491570156", "+123456789012345"])(
    "takes %s",
    (number) => {
      expect(PhoneNumber.safeParse(number).success).toBe(true);
    },
  );
  it.each([
    "12125550100",
    "+0123",
    "+1234567890123456",
    "+1 212 555 0100",
    "+",
    "+1",
    "tel:+12125550100",
    "",
  ])("refuses %j", (number) => {
    expect(PhoneNumber.safeParse(number).success).toBe(false);
  });
  it("takes every fiction number that the reference library thinks possible", () => {
    for (let last = 100; last < 200; last++) {
      const number = `+12125550${last}`;
      expect([isPossiblePhoneNumber(number), PhoneNumber.safeParse(number).success]).toEqual([true, true]);
    }
  });
});

describe("the numbers in this repository", () => {
  it("are all from ranges kept for fiction", () => {
    const root = fileURLToPath(new URL("../..", import.meta.url));
    const files = globSync(["src/**/*.{ts,tsx}", "tests/**/*.ts", "examples/**/*", "*.md"], {
      cwd: root,
      withFileTypes: true,
    });
    const strays = files
      .filter((file) => file.isFile() && file.name !== "phone-numbers.test.ts")
      .flatMap((file) =>
        [...readFileSync(`${file.parentPath}/${file.name}`, "utf8").matchAll(/\+1[2-9]\d{9}(?!\d)/g)].map(
          ([found]) => found,
        ),
      )
      .filter((found) => !/^\+1[2-9]\d{2}55501\d{2}$/.test(found));
    expect(strays).toEqual([]);
  });
});
