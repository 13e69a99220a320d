/** Rows by hand: how effort is counted, and that small numbers and BigInts give the same rows. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { fraction } from "../../docs/assets/javascripts/laws/fraction.mjs";
import { combine, digits, eliminate, firstRow, TooLarge } from "../../docs/assets/javascripts/laws/hand-rows.mjs";

for (const [number, count] of [[0, 1], [7, 1], [-7, 1], [10, 1], [100, 1], [12, 2], [-1200, 2], [105, 3], [99999, 5], [2 ** 40, 13]]) {
  test(`${number} has ${count} digits that cost work`, () => {
    assert.equal(digits(number), count);
    assert.equal(digits(BigInt(number)), count);
  });
}

const row = (factors, right, whole) => firstRow(factors.map((value) => fraction(...[value].flat())), fraction(right), 0, whole);

test("a first row is whole, without a common factor, its first factor positive", () => {
  const made = row([0, [-3, 2], 6], 9, Number);
  assert.deepEqual([made.factors, made.right, `${made.scale}`], [[0, 1, -4], -6, "-3/2"]);
});

test("numbers and BigInts are eliminated to the same rows", () => {
  const lines = [[[3, -1, 4], 7], [[-2, 5, 0], 1], [[0, 6, -9], 12]];
  const [small, large] = [Number, BigInt].map((whole) => eliminate(lines.map(([factors, right]) => row(factors, right, whole)), 1));
  const plain = ({ factors, right }) => [...factors, right].map(Number);
  assert.deepEqual(small.rows.map(plain), large.rows.map(plain));
  assert.deepEqual(small.effort.map(Number), large.effort.map(Number));
  assert.deepEqual(small.last.factors.map(Boolean), [false, true, false]);
});

test("numbers that would no longer be exact are refused, BigInts are not", () => {
  const lines = [[10 ** 9 + 7, 10 ** 9 + 9], [10 ** 9 + 21, 10 ** 9 + 33]];
  assert.throws(() => combine(...lines.map((factors) => row(factors, 1, Number)), 0), TooLarge);
  assert.equal(combine(...lines.map((factors) => row(factors, 1, BigInt)), 0).factors[0], 0n);
});
