/** What a loop would be to the loops of a set: one of them again, a sum of them, or something new. */

import { IndependentRows } from "./elimination.mjs";
import { branchVector, followChoice } from "./loop.mjs";
import { rowOfWalk } from "./loop-set.mjs";

/**
 * The names of the chosen loops that a loop follows from; null where it says something new.
 * @param {{steps: import("./circuit.mjs").Step[]}} loop
 * @param {import("./circuit.mjs").Topology} topology
 */
export function findSources({ steps }, { branches, loops }) {
  const known = new IndependentRows();
  for (const loop of loops) known.add(rowOfWalk(loop.steps, branches));
  const recipe = known.add(rowOfWalk(steps, branches));
  return recipe && [...recipe.keys()].sort((one, other) => one - other).map((number) => loops[number].name);
}

/**
 * Where in the set a walk is already, and whether it is walked the other way there; -1 where it is not.
 * @param {import("./choices.mjs").Walk} walk
 * @param {import("./circuit.mjs").Topology} topology
 */
export function findSame(walk, topology) {
  const { branches, loops } = topology;
  const ways = branchVector(followChoice(walk, topology), branches);
  const turned = ways.map((way) => -way || 0).join();
  const known = loops.map((loop) => branchVector(loop.steps, branches).join());
  const at = known.findIndex((each) => each === turned || each === ways.join());
  return { at, isTurned: known[at] === turned };
}
