import assert from "node:assert/strict";
import { test } from "node:test";
import { checkSet } from "../../docs/assets/javascripts/laws/check-set.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";

const link = findExample(loadRecords(), "link-wire");

test("an equation that says nothing new is told from which it follows", () => {
  const { rows, independent, needed, missing } = checkSet(link, ["I1 = I2 + I3", "I3 + I5 = I4", "I1 - I2 = I4 - I5"]);
  assert.deepEqual(rows.map(({ isNew }) => isNew), [true, true, false]);
  assert.equal(rows[2].say.values.sum, "(1) + (2)");
  assert.deepEqual([independent, needed, missing], [2, 5, 3]);
});

test("what is asked for next is a loop with a part of no equation, then a junction", () => {
  const start = ["I1 = I2 + I3", "12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4"];
  assert.deepEqual([checkSet(link, start).next.rule, checkSet(link, start).next.origin], ["loop", "L3"]);
  const loops = [...start, "4 I4 + 0.2 I5 = 12.2"];
  assert.deepEqual([checkSet(link, loops).next.rule, checkSet(link, loops).next.origin], ["junction", "e"]);
  assert.equal(checkSet(link, [...loops, "I3 + I5 = I4"]).next, null);
});

test("a number that is stated is no law and counts for nothing", () => {
  const { rows, independent } = checkSet(link, ["I1 = 4", "I1 = I2 + I3"]);
  assert.deepEqual([rows.map(({ isNew, say }) => [isNew, say?.key]), independent], [[[false, "no-law"], [true, undefined]], 1]);
});

test("an equation in other units is the same equation, not a thousand times it", () => {
  const bridge = findExample(loadRecords(), "frost-bridge");
  const { rows } = checkSet(bridge, ["9 - 3 I1 - I3 = 0", "9 - 3000 I1 - 1000 I3 = 0", "9 V - 3000 Ω I1 - 1000 Ω I3 = 0"]);
  assert.deepEqual(rows.map(({ say }) => say?.values.sum), [undefined, "(1)", "(1)"]);
});

test("a sum of the set names its equations in their order, a sum before a difference", () => {
  const bridge = findExample(loadRecords(), "frost-bridge");
  const sumOf = (...own) => checkSet(bridge, own).rows.at(-1).say.values.sum;
  assert.equal(sumOf("I2 + I5 = I4", "I6 = I1 + I2", "I1 = I3 + I5", "I3 + I4 = I6"), "\u2212 (1) \u2212 (2) \u2212 (3)");
  assert.equal(sumOf("I2 + I5 = I4", "I6 = I1 + I2", "I1 = I3 + I5", "I6 = I3 + I4"), "(1) + (2) + (3)");
  assert.equal(sumOf("I4 = I2 + I5", "I6 = I1 + I2", "I1 = I3 + I5", "I6 = I3 + I4"), "(2) + (3) \u2212 (1)");
});

test("an equation that stands in the set already is told so, also where that one said nothing new", () => {
  const sums = checkSet(link, ["12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "12.8 - 0.2 I1 - 4 I4 = 0", "12.8 = 0.2 I1 + 4 I_4", "0.2 I1 + 4 I4 - 12.8 = 0"]).rows.map(({ say }) => say?.values.sum);
  assert.deepEqual(sums, [undefined, undefined, "(1) + (2)", "(3)", "\u2212 (3)"]);
});

test("a long sum of the set is not written out", () => {
  const own = ["12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "I1 = I2 + I3", "I3 + I5 = I4"];
  const { rows } = checkSet(link, [...own, "12.8 - 0.2 I1 - 6 I2 + I1 - I2 - I3 + 6 I2 - 4 I4 + I3 + I5 - I4 = 0"]);
  assert.equal(rows.at(-1).say.key, "no-new-long");
});

test("what is not true or not readable counts for nothing", () => {
  const { rows, independent } = checkSet(link, ["I1 = I2 - I3", "I1 = ", "I1 = I2 + I3"]);
  assert.deepEqual([rows.map(({ verdict }) => verdict), independent], [["false", "unreadable", "junction"], 1]);
});

test("every page's own equations are a whole set", () => {
  for (const { example } of loadRecords()) {
    const texts = example.equations.map(({ coefficients, right }) => `${coefficients.map((value, at) => `(${value}) ${example.unknowns[at]}`).join(" + ")} = ${right}`);
    assert.deepEqual([checkSet(example, texts).missing, checkSet(example, texts).next], [0, null], example.address);
  }
});
