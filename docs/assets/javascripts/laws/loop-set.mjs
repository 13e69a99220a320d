/** What a set of loops is worth: whether it decides every current, which loops repeat others, and what is missing. */

import { IndependentRows } from "./elimination.mjs";
import { fraction } from "./fraction.mjs";
import { branchVector, countIndependent, findAllLoops } from "./loop.mjs";

/**
 * @typedef {{needed: number, independent: number, missing: number, isEnough: boolean,
 *   repeats: {name: string, sum: {factor: import("./fraction.mjs").Fraction, name: string}[]}[],
 *   untouched: string[], helpful: {start: string, steps: import("./circuit.mjs").Step[]}[]}} LoopSet
 *   repeats: loops that are sums of loops before them; untouched: currents that no loop goes through; helpful: loops
 *   that would add something new
 */

/**
 * Judges the loops of a topology.
 * @param {import("./circuit.mjs").Topology} topology
 * @param {{start: string, steps: import("./circuit.mjs").Step[]}[]} all every loop of the circuit
 * @returns {LoopSet}
 */
export function judgeLoops({ branches, loops }, all) {
  const rows = loops.map((loop) => rowOfWalk(loop.steps, branches));
  const known = new IndependentRows();
  const repeats = loops.flatMap((loop, at) => {
    const recipe = known.add(rows[at]);
    return recipe ? [{ name: loop.name, sum: [...recipe].map(([number, factor]) => ({ factor, name: loops[number].name })) }] : [];
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
    helpful: needed === independent ? [] : all.filter((loop) => isNew(rowOfWalk(loop.steps, branches), rows)),
  };
}

const rowOfWalk = (walk, branches) => branchVector(walk, branches).map((way) => fraction(way));

function isNew(row, rows) {
  const known = new IndependentRows();
  rows.forEach((each) => known.add(each));
  return known.add(row) === null;
}
