/** Which ring of the figure marks which chosen loop: its own where it has one, else one that is free and lies inside it. */

import { memberKey } from "../laws/loop.mjs";
import { outline, turning } from "./words.mjs";

/**
 * @typedef {{loop: import("../laws/circuit.mjs").Loop, isOwn: boolean, isTurned: boolean}} Ring
 *   isOwn: whether the ring was drawn for a loop through the same parts; isTurned: whether it turns the other way
 */

/**
 * @param {import("../laws/circuit.mjs").Topology} topology as chosen
 * @param {import("../laws/circuit.mjs").Topology} own as printed
 * @param {object} layout
 * @param {Map<string, number[]>} spots where the ring of each printed loop stands
 * @returns {Map<string, Ring>} by the name of the printed loop; a ring that marks nothing is not in it
 */
export function placeRings({ loops }, own, layout, spots) {
  const key = ({ steps }) => memberKey(steps, own.branches);
  const printed = new Map(own.loops.map((loop) => [key(loop), loop]));
  const rings = new Map();
  const others = loops.filter((loop) => {
    const ring = printed.get(key(loop));
    if (ring) rings.set(ring.name, { loop, isOwn: true, isTurned: isTurned(loop.steps, ring.steps) });
    return !ring;
  });
  const free = own.loops.filter((loop) => !rings.has(loop.name));
  // A loop may take the ring of another that can go to a further one.
  const seat = (loop, tried) =>
    free.some((ring) => {
      if (tried.has(ring) || !isInside(spots.get(ring.name), outline(loop.steps, layout))) return false;
      tried.add(ring);
      if (rings.has(ring.name) && !seat(rings.get(ring.name).loop, tried)) return false;
      return rings.set(ring.name, { loop, isOwn: false, isTurned: turning(loop.steps, layout) !== turning(ring.steps, layout) });
    });
  for (const loop of others) seat(loop, new Set());
  return rings;
}

/** Whether one walk passes its parts the other way than another through the same parts. */
export function isTurned(walk, [first]) {
  return walk.find((step) => step.part.name === first.part.name).forward !== first.forward;
}

/** Whether a spot lies inside an outline. */
function isInside([x, y], corners) {
  const isCrossed = ([x1, y1], [x2, y2]) => y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1);
  return corners.filter((corner, at) => isCrossed(corner, corners[(at + 1) % corners.length])).length % 2 === 1;
}

/** The branches whose assumed directions are turned round. */
export const turnedBranches = (topology, own) => topology.branches.filter((branch, at) => isTurned(branch.steps, own.branches[at].steps));
