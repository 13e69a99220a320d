/** What a set of loops is worth: whether it decides every current, which loops repeat others, and what is missing. */

import { IndependentRows } from "./elimination.mjs";
import { fraction } from "./fraction.mjs";
import { branchVector, countIndependent } from "./loop.mjs";

/**
 * @typedef {{needed: number, independent: number, missing: number, isEnough: boolean,
 *   repeats: {name: string, sum: {factor: import("./fraction.mjs").Fraction, name: string}[]}[],
 *   untouched: string[]}} LoopSet
 *   repeats: loops that are sums of loops before them; untouched: currents that no loop goes through
 */

/**
 * Judges the loops of a topology.
 * @param {import("./circuit.mjs").Topology} topology
 * @returns {LoopSet}
 */
export function judgeLoops({ branches, loops }) {
  const rows = loops.map((loop) => rowOfWalk(loop.steps, branches));
  const known = new IndependentRows();
  const repeats = loops.flatMap((loop, at) => {
    const recipe = known.add(rows[at]);
    return recipe ? [{ name: loop.name, sum: [...recipe].sort(([one], [other]) => one - other).map(([number, factor]) => ({ factor, name: loops[number].name })) }] : [];
  });
  const needed = countIndependent(branches);
  const independent = loops.length - repeats.length;
  return {
    needed,
    independent,
    missing: needed - independent,
    isEnough: needed === independent,
    repeats,
    untouched: branches.filter((_, at) => rows.every((row) => row[at].isZero)).map((branch) => branch.current),
  };
}

export const rowOfWalk = (walk, branches) => branchVector(walk, branches).map((way) => fraction(way));
