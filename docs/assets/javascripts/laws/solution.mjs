/** The exact currents and everything that follows from them. Mirrors laws/solution.py. */

import { solve } from "./elimination.mjs";
import { rowOf, sumOf, writeJunction, writeLoop } from "./equation.mjs";
import { total, ZERO } from "./fraction.mjs";

/**
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 * @typedef {{part: import("./circuit.mjs").Part, current: Fraction, voltage: Fraction | null, power: Fraction, role: string}} PartState
 *   current forward through the part, voltage start minus end (null where nothing fixes it), power taken up
 */

/**
 * Solves the equation set and follows the currents through every part.
 * @param {import("./circuit.mjs").Topology} topology
 * @param {{unknowns: string[], equations: import("./equation.mjs").Equation[]}} set in SI units, as many as unknowns
 * @returns {{currents: Map<string, Fraction>, parts: PartState[], potentials: Map<string, Fraction | null>,
 *   checks: {junctionSums: Fraction[], loopSums: Fraction[], powerBalance: Fraction, difference: number}}}
 */
export function solveCircuit(topology, { unknowns, equations }) {
  const matrix = equations.map((equation) => rowOf(equation, unknowns));
  const right = equations.map((equation) => equation.right);
  const values = solve(matrix, right);
  const currents = new Map(unknowns.map((current, at) => [current, values[at]]));
  const levels = findLevels(topology, currents);
  const zero = levels.get(topology.node[findReference(topology)]);
  const parts = topology.parts.map((part) => findState(part, topology, currents, levels));
  return {
    currents,
    parts,
    potentials: new Map(topology.points.map((point) => [point, findDifference(levels.get(topology.node[point]), zero)])),
    checks: {
      junctionSums: topology.junctions.map((junction) => sumOf(writeJunction(junction, topology.branches), currents)),
      loopSums: topology.loops.map((loop) => sumOf(writeLoop(loop, topology), currents)),
      powerBalance: total(parts.map((state) => state.power)),
      difference: askFloats(matrix, right, values),
    },
  };
}

/** The current forward through a part [A]. */
export function through(part, { branchOf, stepOf }, currents) {
  const branch = branchOf.get(part.name);
  if (!branch) return ZERO;
  const current = currents.get(branch.current);
  return stepOf.get(part.name).forward ? current : current.negated();
}

/** The level of every node against the first of its piece, by walking through every part that says how far it falls. */
function findLevels(topology, currents) {
  const { node, parts } = topology;
  const drops = parts
    .filter((part) => part.resistance !== null)
    .map((part) => [node[part.start], node[part.end], part.resistance.times(through(part, topology, currents)).minus(part.emf)]);
  const levels = new Map();
  for (const first of [node[findReference(topology)], ...Object.values(node)]) {
    if (levels.has(first)) continue;
    levels.set(first, { against: first, level: ZERO });
    let before = 0;
    while (before !== levels.size) {
      before = levels.size;
      for (const [start, end, drop] of drops) spread(levels, start, end, drop);
    }
  }
  return levels;
}

function spread(levels, start, end, drop) {
  const [here, there] = [levels.get(start), levels.get(end)];
  if (here && !there) levels.set(end, { against: here.against, level: here.level.minus(drop) });
  if (there && !here) levels.set(start, { against: there.against, level: there.level.plus(drop) });
}

/** How much higher one level is than another [V]; null where nothing fixes it. */
const findDifference = (one, other) => (one.against === other.against ? one.level.minus(other.level) : null);

/** The point whose potential is called 0: the first battery's minus, else the first point. */
export const findReference = ({ parts, points }) => parts.find((part) => part.kind === "battery")?.start ?? points[0];

function findState(part, topology, currents, levels) {
  const current = through(part, topology, currents);
  const voltage = findDifference(levels.get(topology.node[part.start]), levels.get(topology.node[part.end]));
  return { part, current, voltage, power: voltage === null ? ZERO : voltage.times(current), role: findRole(part, current) };
}

/** What a part does with power. */
export function findRole(part, current) {
  if (current.isZero) return "idle";
  if (!part.emf.isZero) return current.isPositive ? "giving" : "charging";
  return part.resistance.isZero ? "carrying" : "using";
}

/** Charge on a capacitor's plate at its start [C]; null for other parts, and where nothing fixes it. */
export function chargeOf({ part, voltage }) {
  return part.kind === "capacitor" && voltage !== null && part.value ? part.value.times(voltage) : null;
}

/** A floating-point answer to the same matrix, as its largest distance from the exact one [A]. */
function askFloats(matrix, right, values) {
  const rows = matrix.map((row, at) => [...row, right[at]].map((value) => value.toNumber()));
  rows.forEach((row, at) => {
    const size = Math.max(...row.slice(0, -1).map(Math.abs));
    rows[at] = row.map((value) => value / size);
  });
  for (let column = 0; column < rows.length; column += 1) {
    const pivot = rows.reduce((best, row, at) => (at > column && Math.abs(row[column]) > Math.abs(rows[best][column]) ? at : best), column);
    [rows[column], rows[pivot]] = [rows[pivot], rows[column]];
    for (let at = 0; at < rows.length; at += 1) {
      const factor = rows[at][column] / rows[column][column];
      if (at !== column && factor) rows[at] = rows[at].map((value, place) => value - factor * rows[column][place]);
    }
  }
  return Math.max(0, ...rows.map((row, at) => Math.abs(row.at(-1) / row[at] - values[at].toNumber())));
}
