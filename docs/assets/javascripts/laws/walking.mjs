/** A walk that grows part by part, as a reader names them, until it is a closed loop. */

import { stepEnd } from "./circuit.mjs";
import { followChoice } from "./loop.mjs";

/**
 * @typedef {{start: string, through: string[], here: string, isClosed: boolean, next: string[]}} Walking
 *   start and here: points, empty while the first part alone does not say which way; next: parts that may follow
 */

/**
 * Where a walk through these parts stands.
 * @param {string[]} through parts in walking order, each joined to the one before; none leads to a place that was passed, but to the start
 * @param {import("./circuit.mjs").Topology} topology
 * @returns {Walking}
 */
export function standOf(through, topology) {
  const alive = [...topology.branchOf.keys()];
  if (!through.length) return { start: "", through, here: "", isClosed: false, next: alive };
  const ways = findWays(through, topology);
  const [{ start, here, isClosed }] = ways;
  const rest = alive.filter((name) => !through.includes(name));
  const next = isClosed ? [] : rest.filter((name) => findWays([...through, name], topology).length);
  const isOpen = ways.length > 1 && !isClosed;
  return { start: isOpen ? "" : start, through, here: isOpen ? "" : here, isClosed, next };
}

/** Whether parts make a walk in this circuit; what a page kept may be of another. */
export const isWalk = (through, topology) => through.every((name) => topology.branchOf.has(name)) && (!through.length || findWays(through, topology).length > 0);

/** The steps of a walk as far as it goes; none while the first part alone does not say which way. */
export const stepsOf = ({ start, through }, topology) => (start ? followChoice({ start, through }, topology) : []);

/** The ways to walk through parts in this order: from one end of the first, from the other, or from neither. */
function findWays(through, topology) {
  const { part, node } = topology;
  const first = part[through[0]];
  return [first.start, first.end].flatMap((start) => {
    const steps = followChoice({ start, through }, topology);
    const places = [start, ...steps.map(stepEnd)].map((point) => node[point]);
    const isClosed = places.at(-1) === places[0];
    if (steps.length < through.length || new Set(places).size + isClosed < places.length) return [];
    return [{ start, here: stepEnd(steps.at(-1)), isClosed }];
  });
}

/** Whether a part joins on where a walk stands; where it is none of the next ones, it would lead to a place that was passed. */
export const joinsOn = (name, { here }, { part, node }) => Boolean(here) && [part[name].start, part[name].end].some((end) => node[end] === node[here]);
