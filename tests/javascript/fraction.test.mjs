/** Exact fractions: the laws of arithmetic hold for random numbers, and texts are those of the JSON. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { ONE, ZERO, fraction, greatestDivisor, parse, total } from "../../docs/assets/javascripts/laws/fraction.mjs";

/** Random numbers that are the same in every run. */
function* randomFractions(count, seed = 1) {
  let state = seed;
  const next = (below) => {
    state = (state * 48271) % 2147483647;
    return state % below;
  };
  for (let at = 0; at < count; at += 1) yield fraction(next(20001) - 10000, next(10 ** (1 + next(6))) + 1);
}

const numbers = [...randomFractions(60)];

test("a sum and a difference undo each other, a product and a quotient too", () => {
  for (const one of numbers) {
    for (const other of numbers) {
      assert.ok(one.plus(other).minus(other).equals(one), `${one} ${other}`);
      if (!other.isZero) assert.ok(one.times(other).over(other).equals(one), `${one} ${other}`);
    }
  }
});

test("sums and products do not depend on the order, and a product goes over a sum", () => {
  const [first] = numbers;
  for (const one of numbers) {
    for (const other of numbers) {
      assert.ok(one.plus(other).equals(other.plus(one)));
      assert.ok(one.times(other).equals(other.times(one)));
      assert.ok(first.times(one.plus(other)).equals(first.times(one).plus(first.times(other))));
    }
  }
});

test("every number is in lowest terms with the sign above", () => {
  for (const one of numbers) {
    assert.ok(one.denominator > 0n);
    assert.equal(greatestDivisor(one.numerator, one.denominator), 1n);
  }
});

test("the order is that of the numbers", () => {
  for (const one of numbers) for (const other of numbers) assert.equal(one.compare(other), Math.sign(one.toNumber() - other.toNumber()) || 0);
});

test("a text is read and written back", () => {
  for (const text of ["0", "7", "-2", "3/2000", "-12/17", "123456789012345678901234567891/7"]) assert.equal(`${parse(text)}`, text);
  assert.equal(`${parse("0.25")}`, "1/4");
  assert.equal(`${parse("6/4")}`, "3/2");
  for (const text of ["", "1/", "1.5/2", "abc", "1e3", " 1"]) assert.throws(() => parse(text), SyntaxError, text);
});

test("a denominator of zero is refused", () => {
  assert.throws(() => fraction(1, 0), RangeError);
  assert.throws(() => ONE.over(ZERO), RangeError);
});

test("very long numbers stay exact, and their float is near", () => {
  const long = fraction(10n ** 400n + 1n, 3n * 10n ** 400n);
  assert.ok(long.minus(fraction(1, 3)).times(fraction(3n * 10n ** 400n)).equals(ONE));
  assert.ok(Math.abs(long.toNumber() - 1 / 3) < 1e-12);
  assert.equal(`${total([])}`, "0");
});
