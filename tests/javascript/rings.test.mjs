/** Which ring of a figure marks which chosen loop. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { readTopology } from "../../docs/assets/javascripts/laws/circuit.mjs";
import { walkOf } from "../../docs/assets/javascripts/laws/choices.mjs";
import { workOut } from "../../docs/assets/javascripts/laws/meaning.mjs";
import { placeRings } from "../../docs/assets/javascripts/page/rings.mjs";
import { bridge } from "./bridge.mjs";

// The battery on the left, then the bridge: c in the middle of its left side, d in the middle of its right side.
const spots = { a: [100, 200], b: [100, 0], c: [100, 100], d: [200, 100] };
const routes = { E1: [spots.a, [0, 200], [0, 0], spots.b], R1: [spots.b, spots.c], R2: [spots.b, [200, 0], spots.d], R3: [spots.c, spots.a], R4: [spots.d, [200, 200], spots.a], R5: [spots.c, spots.d] };
const layout = { places: spots, routes, lines: [] };
const middles = new Map([["L1", [50, 100]], ["L2", [150, 50]], ["L3", [150, 150]]]);

const own = readTopology(bridge);
const [first, second, third] = own.loops.map(walkOf);
const turn = ({ start, through }) => ({ start, through: through.toReversed() });
const around = { start: "a", through: ["E1", "R2", "R4"] };
const right = { start: "b", through: ["R2", "R4", "R3", "R1"] };

function marks(...walk) {
  const rings = placeRings(workOut(bridge, { walk }, layout).topology, own, layout, middles);
  return [...rings].sort().map(([ring, { loop, isOwn, isTurned }]) => `${ring} ${loop.name}${isOwn ? "" : " lent"}${isTurned ? " turned" : ""}`);
}

for (const [says, walks, expected] of [
  ["the page's own loops keep their rings", [first, second, third], ["L1 L1", "L2 L2", "L3 L3"]],
  ["a loop walked the other way turns its ring", [first, turn(second)], ["L1 L1", "L2 L2 turned"]],
  ["a loop round others takes a free ring inside it", [first, second, around], ["L1 L1", "L2 L2", "L3 L4 lent"]],
  ["and turns it with itself", [first, second, turn(around)], ["L1 L1", "L2 L2", "L3 L4 lent turned"]],
  ["a loop gives way to one that fits nowhere else", [around, right, third], ["L1 L4 lent", "L2 L7 lent", "L3 L3"]],
  ["where no ring is free there is none", [first, second, third, around], ["L1 L1", "L2 L2", "L3 L3"]],
  ["a ring outside a loop is none of its", [second, third, right], ["L2 L2", "L3 L3"]],
]) {
  test(says, () => assert.deepEqual(marks(...walks), expected));
}
