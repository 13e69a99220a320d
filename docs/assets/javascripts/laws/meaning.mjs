/** A circuit worked out in full, and what the answers mean. Mirrors laws/meaning.py. */

import { findRoute } from "./by-hand.mjs";
import { applyChoices } from "./choices.mjs";
import { readTopology } from "./circuit.mjs";
import { makeEquation, writeEquations } from "./equation.mjs";
import { nameAllLoops } from "./loop.mjs";
import { judgeLoops } from "./loop-set.mjs";
import { MINUS, plain, rounded, withUnit } from "./numeral.mjs";
import { solveCircuit } from "./solution.mjs";
import { readUnits, toUnits } from "./units.mjs";

/**
 * @typedef {{example: object, layout: object | null, topology: import("./circuit.mjs").Topology,
 *   units: ReturnType<typeof readUnits>, equations: EquationSet, written: EquationSet, all: import("./circuit.mjs").Loop[],
 *   loopSet: import("./loop-set.mjs").LoopSet, solution: object | null, route: object | null, isOwnSet: boolean}} Worked
 *   equations in SI units, written in the page's; all: every loop of the circuit; solution and route are null where the
 *   chosen loops do not decide every current
 * @typedef {{unknowns: string[], equations: import("./equation.mjs").Equation[]}} EquationSet
 */

/**
 * Applies the laws to an example with a reader's choices.
 * @param {object} example what `solve --json` prints
 * @param {import("./choices.mjs").Choices} [choices]
 * @param {object | null} [layout] the figure's routes, for words of direction
 * @returns {Worked}
 */
export function workOut(example, choices = {}, layout = null) {
  const own = readTopology(example, choices);
  const topology = applyChoices(own, choices);
  const units = readUnits(example.units);
  const isOwnSet = !choices.flip?.length && !choices.leaveOut && !choices.walk?.length;
  return whenAsked({ example, layout, topology, units, isOwnSet }, {
    all: () => nameAllLoops(own),
    loopSet: () => judgeLoops(topology),
    counted: ({ loopSet }) => leaveOutRepeats(topology, loopSet),
    equations: ({ counted }) => writeEquations(counted),
    written: ({ equations }) => equationsInUnits(equations, units),
    solution: ({ loopSet, counted, equations }) => (loopSet.isEnough ? solveCircuit(counted, equations) : null),
    route: ({ loopSet, written }) => (loopSet.isEnough ? findRoute(topology, written) : null),
  });
}

/** Only loops that say something new give an equation. */
function leaveOutRepeats(topology, { repeats }) {
  const repeating = repeats.map((repeat) => repeat.name);
  return { ...topology, loops: topology.loops.filter((loop) => !repeating.includes(loop.name)) };
}

/** An object with further values that are made once, when somebody asks: a tap shows before all that follows is known. */
function whenAsked(object, makers) {
  for (const [name, make] of Object.entries(makers)) {
    const get = () => {
      const value = make(object);
      Object.defineProperty(object, name, { value, enumerable: true });
      return value;
    };
    Object.defineProperty(object, name, { get, configurable: true, enumerable: true });
  }
  return object;
}

/** The same equations with their numbers in the page's units. */
export function equationsInUnits({ unknowns, equations }, units) {
  return { unknowns, equations: equations.map((equation) => equationInUnits(equation, units)) };
}

/** The same equation with its numbers in the page's units; a junction's have none. */
export function equationInUnits(equation, units) {
  if (equation.rule === "junction") return equation;
  const terms = equation.terms.map((term) => ({ ...term, factor: toUnits(term.factor, term.current ? units.resistance : units.voltage, units) }));
  return makeEquation(equation.rule, equation.origin, terms);
}

/** Whether a current flows along its arrow; null where none flows. */
export const flowsAsAssumed = (current) => (current.isZero ? null : current.isPositive);

/** A current in the page's unit: 0.0938 A. */
export function currentText(current, units, figures = 3) {
  return withUnit(rounded(toUnits(current, units.current, units), figures), units.current);
}

/**
 * The terms of an equation with equal currents taken together and the emfs added up: what the emfs come to stands first
 * where it is positive and last where it is negative.
 * @returns {[import("./fraction.mjs").Fraction, string][]}
 */
export function gatheredTerms(equation) {
  const currents = [...equation.factors].map(([current, factor]) => [factor, current]);
  const emf = [equation.right.negated(), ""];
  return emf[0].isPositive ? [emf, ...currents] : emf[0].isZero ? currents : [...currents, emf];
}

/** An equation in one line of text: 12 − 4 I1 − 5 I2 = 0. */
export function equationText(equation) {
  const words = gatheredTerms(equation).map(([factor, current], at) => {
    const size = factor.size();
    const sign = factor.isNegative ? MINUS : at ? "+" : "";
    const shown = current && size.toString() === "1" ? [current] : [plain(size), current].filter(Boolean);
    return `${sign}${at ? " " : ""}${shown.join(" ")}`;
  });
  return `${words.join(" ") || "0"} = 0`;
}
