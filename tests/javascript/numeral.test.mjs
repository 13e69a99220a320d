/** Numbers as they are written: the table is the one that the Python tests use. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { parse } from "../../docs/assets/javascripts/laws/fraction.mjs";
import { isExactWhenRounded, isTerminating, plain, rounded, withUnit } from "../../docs/assets/javascripts/laws/numeral.mjs";

const table = JSON.parse(readFileSync(new URL("numerals.json", import.meta.url)));

for (const [text, exact, three] of table) {
  test(`${text} is written ${exact}, and ${three} in three figures`, () => {
    assert.equal(plain(parse(text)), exact);
    assert.equal(rounded(parse(text)), three);
  });
}

test("a decimal with an end is one whose denominator has no primes but 2 and 5", () => {
  for (const text of ["1/2", "3/80", "7", "-9/125"]) assert.ok(isTerminating(parse(text)), text);
  for (const text of ["1/3", "1/70", "22/7"]) assert.ok(!isTerminating(parse(text)), text);
});

test("rounded figures say a number exactly or not", () => {
  assert.ok(isExactWhenRounded(parse("-0.25")));
  assert.ok(!isExactWhenRounded(parse("1/3"), 5));
  assert.ok(!isExactWhenRounded(parse("1.2345")));
});

test("a no-break space stands before the unit", () => assert.equal(withUnit("12", "V"), "12\u00a0V"));
