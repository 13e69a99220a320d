/** Exact elimination: what is found solves the set, and what repeats says how. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { IndependentRows, rank, solve } from "../../docs/assets/javascripts/laws/elimination.mjs";
import { fraction, parse, total } from "../../docs/assets/javascripts/laws/fraction.mjs";

const rows = (lines) => lines.map((line) => line.map((value) => parse(String(value))));

test("the solution solves the set, also where a pivot has to be looked for", () => {
  const matrix = rows([[0, 2, 1], [3, 0, -1], ["1/3", 5, 7]]);
  const right = [fraction(4), fraction(-2, 7), fraction(0)];
  const found = solve(matrix, right);
  matrix.forEach((row, at) => assert.ok(total(row.map((value, column) => value.times(found[column]))).equals(right[at])));
});

test("a set that does not decide every current is refused", () => {
  assert.throws(() => solve(rows([[1, 2], [2, 4]]), [fraction(1), fraction(2)]), RangeError);
});

test("a row that repeats others says how it follows from them", () => {
  const known = new IndependentRows();
  const given = rows([[1, -1, 0], [0, 1, -1], [2, 1, -3], [0, 0, 0], [1, 0, 1]]);
  assert.equal(known.add(given[0]), null);
  assert.equal(known.add(given[1]), null);
  const recipe = known.add(given[2]);
  assert.deepEqual([...recipe].map(([number, share]) => [number, `${share}`]), [[0, "2"], [1, "3"]]);
  assert.equal(known.add(given[3]).size, 0);
  assert.equal(known.add(given[4]), null);
  assert.equal(rank(given), 3);
});
