/** An example as its reader has it on the page: with the chosen loops, and the chosen junction left out. */
import { memberKey } from "./loop.mjs";

/**
 * What the checks work on, so that they call every loop as the page does.
 * @param {import("./meaning.mjs").Worked} worked
 * @returns {object} what `solve --json` prints, with the junctions and loops of the reader
 */
export function asChosen({ example, topology, loopSet }) {
  const { loops, junctions, branches, part } = topology;
  const chosen = loops.map((loop) => writeWalk(loop.name, loop));
  if (loopSet.isEnough) return { ...example, junctions, loops: chosen };
  // Loops that decide too little get the printed ones behind them, under the names of their parts.
  const taken = new Set(loops.map(({ steps }) => memberKey(steps, branches)));
  const others = example.loops.map((loop) => ({ ...loop, name: loop.walk.join(", "), steps: loop.walk.map((name, at) => ({ part: part[name], forward: loop.forward[at] })) }));
  return { ...example, junctions, loops: [...chosen, ...others.filter(({ steps }) => !taken.has(memberKey(steps, branches))).map((loop) => writeWalk(loop.name, loop))] };
}

const writeWalk = (name, { start, steps }) => ({ name, start, walk: steps.map((step) => step.part.name), forward: steps.map((step) => step.forward) });
