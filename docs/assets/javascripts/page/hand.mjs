/** The route by hand: for every line a sentence that names the lines it uses, and its formula. Mirrors page/hand.py. */

import { MINUS, isTerminating, plain } from "../laws/numeral.mjs";
import { about, equation, math, name, number, operator, quantity, row, termSum } from "./mathml.mjs";
import { setText } from "./prose.mjs";
import { listed, say, tell } from "./saying.mjs";

const TIMES = "\u00d7";

/**
 * @param {import("../laws/meaning.mjs").Worked} worked with a route
 * @returns {import("./saying.mjs").Tree[]}
 */
export function viewRoute(worked) {
  const { route, topology, written } = worked;
  if (!route.lines.length) return [["p", {}, ...tell("hand.none")]];
  const areSomeLeft = topology.asked.length && route.asked.length < written.unknowns.length;
  const others = areSomeLeft ? [["p", {}, ...tell("hand.others")]] : [];
  return [["p", {}, ...introduce(worked)], ["ol", { class: "route" }, ...route.lines.map((line) => viewLine(line, worked))], ...others];
}

function introduce({ route, topology, units }) {
  const asked = topology.asked.length ? tell("hand.asked", { asked: setText(listed(route.asked), topology) }) : tell("hand.all_asked");
  const junctions = topology.junctions.some((junction) => junction.used) ? [" ", ...tell("hand.junctions")] : [];
  return [...asked, ...junctions, " ", ...tell("hand.units", { unit: units.current })];
}

function viewLine(line, { route, units }) {
  const isAnswer = line.action === "find" && route.asked.includes(line.current);
  const before = writeBefore(line).map((formula) => ["p", { class: "equation before" }, math(formula)]);
  return [
    "li",
    { class: isAnswer ? "route-line answer" : "route-line", id: `line-${line.number}` },
    ["p", { class: "says" }, ["span", { class: "line-number" }, `(${line.number})`], ` ${tellLine(line)}:`],
    ...before,
    ["p", { class: "equation" }, math(writeLine(line, units.current))],
  ];
}

/** The sentence of one line. */
export function tellLine(line) {
  const [first, ...rest] = line.uses.map((use) => say("hand.line", { number: use }));
  const lines = listed(rest);
  if (line.action === "combine") return say("hand.combine", { combination: combination(line), divided: divided(line) });
  if (line.action === "insert") return say(rest.length ? "hand.insert" : "hand.in_order", { first, lines, turned: turned(line), divided: divided(line) });
  return say(rest.length ? "hand.from_with" : "hand.from", { first, lines });
}

/** A combination of two lines, the added one first: 6 × (11) − (10). */
function combination({ multipliers, uses }) {
  const terms = multipliers.map((multiplier, at) => [multiplier, uses[at]]);
  const order = [...terms.filter(([multiplier]) => multiplier > 0), ...terms.filter(([multiplier]) => multiplier < 0)];
  return order.map(([multiplier, use], at) => {
    const size = multiplier < 0n ? -multiplier : multiplier;
    const sign = multiplier < 0n ? MINUS : at ? "+" : "";
    return `${sign}${at ? " " : ""}${size === 1n ? "" : `${size} ${TIMES} `}(${use})`;
  }).join(" ");
}

/** Where the signs of the currents are not those of the equation, how they came to be the others. */
const turned = ({ isTurned, right }) => (isTurned ? say(right.isZero ? "hand.turned" : "hand.across") : "");

/** What is done to the line as first written. */
function divided({ scale }) {
  if (scale.toString() === "1") return "";
  if (scale.numerator === 1n) return say("hand.times", { times: scale.denominator });
  if (isTerminating(scale)) return say("hand.divided", { divisor: plain(scale) });
  return say("hand.times_and_divided", { times: scale.denominator, divisor: scale.numerator });
}

/** The line before it is divided; nothing where it is not. */
function writeBefore({ action, scale, terms, right }) {
  if (!["insert", "combine"].includes(action) || scale.toString() === "1") return [];
  const larger = terms.map(([current, factor]) => [factor.times(scale), current]);
  return [equation(termSum(larger), number(plain(right.times(scale))))];
}

/** The formula of one line. */
function writeLine({ action, current, terms, right }, unit) {
  const sum = () => termSum(terms.map(([each, factor]) => [factor, each]));
  if (action === "express") return equation(name(current), sum());
  if (action === "find") return writeValue(current, right, unit);
  return equation(sum(), number(plain(right)));
}

/** A current's value: exact, and rounded where it does not end by itself. */
function writeValue(current, value, unit) {
  const exact = equation(name(current), quantity(value, unit));
  return isTerminating(value) ? exact : row([exact, operator("≈"), about(value, unit)]);
}
