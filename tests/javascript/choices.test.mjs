/** What a reader chose, from and to the address, and what a set of loops is worth. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { readTopology, stepStart } from "../../docs/assets/javascripts/laws/circuit.mjs";
import { readChoices, walkOf, writeChoices } from "../../docs/assets/javascripts/laws/choices.mjs";
import { findSame, findSources } from "../../docs/assets/javascripts/laws/loop-sources.mjs";
import { equationText, workOut } from "../../docs/assets/javascripts/laws/meaning.mjs";
import { viewJunctions } from "../../docs/assets/javascripts/page/setup.mjs";
import { SECTIONS, viewSection } from "../../docs/assets/javascripts/page/views.mjs";
import { bridge } from "./bridge.mjs";

const topology = readTopology(bridge);
const read = (search) => readChoices(search, topology);

test("choices come back from the address they are written to", () => {
  const choices = { flip: ["I1", "I3"], leaveOut: "b", walk: [{ start: "a", through: ["E1", "R1", "R3"] }] };
  const search = writeChoices(choices);
  assert.equal(search, "?flip=I1.I3&leave-out=b&walk=a.E1.R1.R3");
  assert.deepEqual(read(search), { choices, notes: [] });
});

test("other keys of an address stay, and choices that are taken back go", () => {
  assert.equal(writeChoices({}, "?set=4&flip=I1"), "?set=4");
  assert.equal(writeChoices({}, "?flip=I1"), "");
});

for (const [search, notes] of [
  ["?flip=I9", ["flip"]],
  ["?flip=I1.I9.I1.%00", ["flip", "flip"]],
  ["?flip=__proto__.constructor", ["flip", "flip"]],
  ["?leave-out=zz", ["leave-out"]],
  ["?leave-out=__proto__", ["leave-out"]],
  ["?walk=a.E1", ["walk"]],
  ["?walk=a.E1.E1", ["walk"]],
  ["?walk=a", ["walk"]],
  ["?walk=q.E1.R1.R3", ["walk"]],
  ["?walk=a.R9", ["walk"]],
  ["?walk=constructor.toString", ["walk"]],
  ["?walk=c.R1.R3.E1_a.E1.R1.R3", ["walk"]],
  ["?walk=__..._a.E1.R1.R3", ["walk"]],
  ["?walk=%F0%9F%94%8B<script>", ["walk"]],
  ["?flip=&leave-out=&walk=", []],
  ["???&&&=", []],
]) {
  test(`a broken address does no harm: ${search}`, () => {
    const { choices, notes: said } = read(search);
    assert.deepEqual(said.map((note) => note.kind), notes);
    assert.ok(workOut(bridge, choices).example === bridge);
  });
}

test("an address with thousands of loops is cut short", () => {
  const { choices, notes } = read(`?walk=${"a.E1.R1.R3_".repeat(5000)}`);
  assert.equal(choices.walk.length, 20);
  assert.equal(notes.length, 4980);
});

test("a turned direction changes its signs and its answer, and nothing that really flows", () => {
  const [own, turned] = [workOut(bridge), workOut(bridge, { flip: ["I5"] })];
  assert.deepEqual(own.written.equations.map(equationText).filter((text, at) => text !== equationText(turned.written.equations[at])).length, 4);
  assert.ok(own.solution.currents.get("I5").equals(turned.solution.currents.get("I5").negated()));
  own.solution.parts.forEach((state, at) => {
    for (const key of ["current", "voltage", "power"]) assert.ok(state[key].equals(turned.solution.parts[at][key]), state.part.name);
  });
});

test("a loop that is a sum of others is named with its sum, and the answer waits", () => {
  const around = workOut(bridge).all.find((loop) => loop.steps.length === 4 && loop.steps.every((step) => !["E1", "R5"].includes(step.part.name)));
  const worked = workOut(bridge, { walk: [topology.loops[1], topology.loops[2], around].map(walkOf) });
  const { repeats, independent, missing, isEnough, untouched } = worked.loopSet;
  assert.deepEqual([independent, missing, isEnough], [2, 1, false]);
  assert.deepEqual(repeats.map(({ name, sum }) => [name, sum.map(({ name: loop }) => loop)]), [["L7", ["L2", "L3"]]]);
  assert.deepEqual(untouched, ["I6"]);
  const through = worked.all.map((loop) => [loop.steps.some((step) => step.part.name === "E1"), findSources(loop, worked.topology)]);
  assert.ok(through.every(([isThrough, sources]) => isThrough === (sources === null)));
  assert.deepEqual(findSources({ steps: around.steps }, topology), ["L2", "L3"]);
  assert.equal(worked.solution, null);
  for (const id of SECTIONS) assert.ok(JSON.stringify(viewSection(id, worked)).length > 50, id);
  assert.match(JSON.stringify(viewSection("currents", worked)), /There is no answer yet/);
});

test("a loop keeps its name whichever loops stand beside it, and however it is walked", () => {
  const { all } = workOut(bridge);
  const around = walkOf(all.at(-1));
  const [first, second, third] = topology.loops.map(walkOf);
  const turned = { start: third.start, through: third.through.toReversed() };
  const namesOf = (...walk) => workOut(bridge, { walk }).topology.loops.map((loop) => loop.name);
  assert.deepEqual(namesOf(first, third), ["L1", "L3"]);
  assert.deepEqual(namesOf(turned, around, first), ["L3", "L7", "L1"]);
  assert.deepEqual(namesOf(walkOf(all.at(-2)), around), ["L6", "L7"]);
  assert.deepEqual(namesOf(around), ["L7"]);
  assert.deepEqual(namesOf(second, second), ["L2", "L8"]);
  assert.deepEqual(all.map((loop) => loop.name).toSorted(), ["L1", "L2", "L3", "L4", "L5", "L6", "L7"]);
});

test("a walk is known again in the set: the same way from wherever it begins, the other way, or not at all", () => {
  const { start, through } = walkOf(topology.loops[1]);
  const elsewhere = stepStart(topology.loops[1].steps[1]);
  assert.deepEqual(findSame({ start: elsewhere, through: [...through.slice(1), through[0]] }, topology), { at: 1, isTurned: false });
  assert.deepEqual(findSame({ start, through: through.toReversed() }, topology), { at: 1, isTurned: true });
  assert.deepEqual(findSame(walkOf(workOut(bridge).all.at(-1)), topology), { at: -1, isTurned: false });
});

test("one loop too many is left out of the set, and the answer stands", () => {
  const { all } = workOut(bridge);
  const worked = workOut(bridge, { walk: all.map(walkOf) });
  assert.equal(all.length, 7);
  assert.equal(worked.loopSet.repeats.length, 4);
  assert.equal(worked.written.equations.length, 6);
  for (const [name, value] of workOut(bridge).solution.currents) assert.ok(worked.solution.currents.get(name).equals(value));
});

test("where all arrows enter a junction, or all leave it, what follows is said, used or left out", () => {
  const { branches, junctions } = topology;
  for (const { name } of junctions) {
    const flip = branches.filter((branch) => branch.start === name).map((branch) => branch.current);
    const others = junctions.filter((junction) => junction.name !== name).map((junction) => junction.name);
    for (const leaveOut of [name, others[0]]) {
      const [, list] = viewJunctions(workOut(bridge, { flip, leaveOut }));
      const item = list.slice(2).find((each) => each[1]["data-junction"] === name);
      assert.match(JSON.stringify(item), /out .*none.*So at least one of them will come out negative, unless all are zero\./);
    }
  }
  assert.doesNotMatch(JSON.stringify(viewJunctions(workOut(bridge))), /come out negative/);
});
