/**
 * The junction rule and the loop rule, every term with the reason for its sign. Mirrors laws/equation.py.
 *
 * At a junction what enters counts plus and what leaves minus. Round a loop rises of potential count plus and drops
 * minus. Both sums are zero.
 */

import { ONE, total, ZERO } from "./fraction.mjs";

/**
 * @typedef {{factor: Fraction, current: string, origin: string, reason: string}} Term current is empty for an emf
 * @typedef {{rule: "junction" | "loop", origin: string, terms: Term[], factors: Map<string, Fraction>, right: Fraction}} Equation
 *   the sum of its terms is zero; factors and right have equal currents together and the emfs taken across
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 */

/** An equation from its terms. */
export function makeEquation(rule, origin, terms) {
  const sums = new Map();
  for (const { current, factor } of terms) {
    if (current && !factor.isZero) sums.set(current, (sums.get(current) ?? ZERO).plus(factor));
  }
  const factors = new Map([...sums].filter(([, factor]) => !factor.isZero));
  const right = total(terms.filter((term) => !term.current).map((term) => term.factor)).negated();
  return { rule, origin, terms, factors, right };
}

/** The factors of an equation in the order of the unknowns. */
export const rowOf = (equation, unknowns) => unknowns.map((current) => equation.factors.get(current) ?? ZERO);

/** What the left side of an equation comes to with these currents; 0 where they are right. */
export function sumOf(equation, currents) {
  return total([...equation.factors].map(([current, factor]) => factor.times(currents.get(current)))).minus(equation.right);
}

/**
 * The equation set of a circuit: the used junctions and the loops.
 * @param {import("./circuit.mjs").Topology} topology
 * @returns {{unknowns: string[], equations: Equation[]}}
 */
export function writeEquations(topology) {
  const junctions = topology.junctions.filter((junction) => junction.used).map((junction) => writeJunction(junction, topology.branches));
  const loops = topology.loops.map((loop) => writeLoop(loop, topology));
  return { unknowns: topology.branches.map((branch) => branch.current), equations: [...junctions, ...loops] };
}

/** The junction rule at one junction: first what enters, then what leaves. */
export function writeJunction(junction, branches) {
  const enters = branches.filter((branch) => branch.end === junction.name);
  const leaves = branches.filter((branch) => branch.start === junction.name);
  return makeEquation("junction", junction.name, [
    ...enters.map(({ current }) => ({ factor: ONE, current, origin: current, reason: "enters" })),
    ...leaves.map(({ current }) => ({ factor: ONE.negated(), current, origin: current, reason: "leaves" })),
  ]);
}

/** The loop rule round one loop. */
export function writeLoop(loop, topology) {
  return makeEquation("loop", loop.name, loop.steps.flatMap((step) => writeStep(step, topology)));
}

/** What the walk through one part adds: the emf of a battery, the drop or rise at a resistance. */
export function writeStep({ part, forward }, { branchOf, stepOf }) {
  const { current } = branchOf.get(part.name);
  const term = (size, isPlus, current, reason) => ({ factor: isPlus ? size : size.negated(), current, origin: part.name, reason });
  const emf = part.emf.isZero ? [] : [term(part.emf, forward, "", forward ? "minus to plus" : "plus to minus")];
  if (!part.resistance.isZero) {
    const withArrow = forward === stepOf.get(part.name).forward;
    return [...emf, term(part.resistance, !withArrow, current, withArrow ? "with the arrow" : "against the arrow")];
  }
  return emf.length ? emf : [term(ZERO, true, current, "no resistance")];
}
