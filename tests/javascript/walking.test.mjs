/** A walk of the reader's own, part by part. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { markChanges } from "../../docs/assets/javascripts/elements/changes.mjs";
import { buildTopology } from "../../docs/assets/javascripts/laws/circuit.mjs";
import { joinsOn, standOf } from "../../docs/assets/javascripts/laws/walking.mjs";

const part = (name, start, end) => ({ name, start, end });
const parts = [part("E1", "a", "b"), part("R1", "b", "c"), part("R2", "c", "a"), part("R3", "b", "c"), part("C1", "b", "a")];
const branch = (current, ...steps) => ({ current, start: "", end: "", steps: steps.map((at) => ({ part: parts[at], forward: true })) });
const topology = buildTopology({
  parts,
  part: Object.fromEntries(parts.map((each) => [each.name, each])),
  node: { a: "a", b: "b", c: "c" },
  branches: [branch("I1", 2, 0), branch("I2", 1), branch("I3", 3)],
});

const cases = [
  [[], "", false, ["R2", "E1", "R1", "R3"]],
  [["E1"], "", false, ["R2", "R1", "R3"]],
  [["E1", "R1"], "c", false, ["R2"]],
  [["R1", "R3"], "b", true, []],
  [["E1", "R1", "R2"], "a", true, []],
];

for (const [through, here, isClosed, next] of cases) {
  test(`a walk through ${through.join(", ") || "nothing"} stands at ${here || "no one place"}`, () => {
    const stand = standOf(through, topology);
    assert.deepEqual([stand.here, stand.isClosed, stand.next], [here, isClosed, next]);
  });
}

test("a walk leads to no place that it has passed, but to its start", () => {
  // A triangle a-b-c with a tail of two parts from c over d back to b.
  const tail = [...parts.slice(0, 3), part("R4", "c", "d"), part("R5", "d", "b")];
  const triangle = buildTopology({
    parts: tail,
    part: Object.fromEntries(tail.map((each) => [each.name, each])),
    node: { a: "a", b: "b", c: "c", d: "d" },
    branches: tail.map((each) => ({ current: each.name, start: "", end: "", steps: [{ part: each, forward: true }] })),
  });
  const stand = standOf(["E1", "R1", "R4"], triangle);
  assert.deepEqual([stand.here, stand.next], ["d", []]);
  assert.deepEqual(["R5", "R2"].map((name) => joinsOn(name, stand, triangle)), [true, false]);
});

test("only the smallest elements that differ are marked", () => {
  const row = (name, text) => ["tr", { "data-part": name }, ["th", {}, name], ["td", {}, text]];
  const marked = markChanges(["tbody", {}, row("R1", "+"), row("R2", "+")], ["tbody", {}, row("R1", "+"), row("R2", "−")]);
  assert.deepEqual(marked, ["tbody", {}, row("R1", "+"), ["tr", { "data-part": "R2" }, ["th", {}, "R2"], ["td", { class: "changed" }, "−"]]]);
});

test("of two rows about one battery each is compared with its own earlier self", () => {
  const row = (text) => ["tr", { "data-part": "E1" }, ["td", {}, text]];
  const rows = ["tbody", {}, row("12.8"), row("0.1 I1")];
  assert.deepEqual(markChanges(structuredClone(rows), rows), rows);
});

test("of a sum only the term whose sign or size changed is marked, also where a sign comes first or goes", () => {
  const term = (current, mark) => ["mrow", { class: mark ? `term ${mark}` : "term", "data-current": current }, ["mi", {}, current]];
  const [minus, plus, newMinus, newPlus] = [["−"], ["+"], ["−", "changed"], ["+", "changed"]].map(([sign, name]) => ["mo", name ? { class: name } : {}, sign]);
  const sum = (...children) => ["mrow", {}, ...children];
  const plain = sum(term("I1"), minus, term("I2"), minus, term("I3"));
  const turned = sum(minus, term("I1"), minus, term("I2"), minus, term("I3"));
  assert.deepEqual(markChanges(plain, turned), sum(newMinus, term("I1", "changed"), minus, term("I2"), minus, term("I3")));
  assert.deepEqual(markChanges(turned, plain), sum(term("I1", "changed"), minus, term("I2"), minus, term("I3")));
  const other = sum(term("I1"), plus, term("I2"), minus, term("I3"));
  assert.deepEqual(markChanges(plain, other), sum(term("I1"), newPlus, term("I2", "changed"), minus, term("I3")));
  assert.deepEqual(markChanges(structuredClone(plain), plain), plain);
});
