/** Every term of the equations of a page, and the sentence that says why it has its sign. */

import { writeJunction, writeLoop } from "../laws/equation.mjs";
import { setName, setText } from "./prose.mjs";
import { say, tell } from "./saying.mjs";

/**
 * @typedef {import("../laws/equation.mjs").Equation} Equation
 * @typedef {import("../laws/equation.mjs").Term} Term
 * @typedef {import("../laws/circuit.mjs").Topology} Topology
 * @typedef {import("./saying.mjs").Tree} Tree
 */

/**
 * The equation of a junction, used or not, or of a loop; undefined where there is none of that name.
 * @param {"junction" | "loop"} rule
 * @param {string} origin
 * @param {Topology} topology
 * @returns {Equation | undefined}
 */
export function findEquation(rule, origin, topology) {
  const named = (each) => each.name === origin;
  if (rule === "junction") return topology.junctions.some(named) ? writeJunction(topology.junctions.find(named), topology.branches) : undefined;
  return topology.loops.some(named) ? writeLoop(topology.loops.find(named), topology) : undefined;
}

/** What terms of one equation are about, by what it is in the figure. */
export function lightOf({ rule, origin }, terms) {
  const current = [...new Set(terms.map((term) => term.current).filter(Boolean))];
  return rule === "loop" ? { loop: [origin], part: terms.map((term) => term.origin), current } : { junction: [origin], current };
}

/** The part of a term; a battery with internal resistance has two terms, and each says which it is. */
export function setWalked({ origin, current }, topology) {
  const { emf, resistance } = topology.part[origin];
  const part = setText(origin, topology);
  return emf.isZero || resistance.isZero ? part : tell(current ? "loops.internal" : "loops.emf", { part });
}

/**
 * Why a term has its sign, in one sentence.
 * @param {Equation} equation
 * @param {Term} term
 * @param {Topology} topology
 * @returns {Tree[]}
 */
export function tellTerm({ rule, origin }, term, topology) {
  const { reason, current, factor } = term;
  if (rule === "junction") return tell(`light.${reason}`, { current: setName(current, "current"), junction: setName(origin, "point") });
  const sign = say(factor.isZero ? "light.no_sign" : factor.isNegative ? "light.minus" : "light.plus");
  const why = setText(say(reasonKey(reason), { current }), topology);
  return tell("light.loop", { loop: setName(origin, "loop"), part: throughOf(term, topology), why, sign });
}

/** What one goes through at a term: a part, or the internal resistance of a battery. */
export const throughOf = (term, topology) => (term.current ? setWalked(term, topology) : setName(term.origin, "part"));

/** Where the sentence of a reason stands. */
export const reasonKey = (reason) => `reason.${reason.replace("the ", "").replaceAll(" ", "_")}`;
