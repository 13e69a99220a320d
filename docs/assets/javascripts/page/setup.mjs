/** What the page shows before anything is solved: directions, junctions, loops, equation set. Mirrors page/setup.py. */

import { writeJunction, writeLoop } from "../laws/equation.mjs";
import { keep } from "../laws/keep.mjs";
import { equationInUnits, gatheredTerms } from "../laws/meaning.mjs";
import { MINUS, plain } from "../laws/numeral.mjs";
import { equation, math, name, number, operator, row, termSum } from "./mathml.mjs";
import { setText } from "./prose.mjs";
import { joined, listed, say, tell } from "./saying.mjs";
import { cell, column, numberCell, rowHeading, table } from "./table.mjs";
import { setWalked } from "./terms.mjs";
import { loopWords, wayInWords } from "./words.mjs";

/**
 * @typedef {import("../laws/meaning.mjs").Worked} Worked
 * @typedef {import("./saying.mjs").Tree} Tree
 */

/** @param {Worked} worked @returns {Tree[]} */
export function viewDirections(worked) {
  const { topology } = worked;
  const count = topology.branches.length;
  if (!count) return [["p", {}, ...tell("directions.none")], ...viewIdle(topology)];
  const head = ["current", "parts", "way"].map((key) => column(say(`directions.${key}`)));
  const rows = topology.branches.map((branch) => keepDirection(branch, worked));
  return [["p", {}, ...tell("directions.intro", { count })], table("directions", head, rows), ...viewIdle(topology)];
}

const kept = new WeakMap();
const undrawn = {};

/** A branch that runs as it did has the very row that it had: what writes only what differs need not look into it. */
function keepDirection(branch, worked) {
  const rows = keep(kept, worked.layout ?? undrawn, () => new Map());
  const key = [branch.current, ...branch.steps.map(({ part, forward }) => `${part.name} ${forward}`)].join();
  return keep(rows, key, () => viewDirection(branch, worked));
}

function viewDirection(branch, { topology, layout }) {
  const text = (words) => setText(words, topology);
  const parts = listed(branch.steps.map((step) => step.part.name));
  const cells = [rowHeading(...text(branch.current)), cell(...text(parts)), cell(...text(wayInWords(branch, layout)))];
  return ["tr", { "data-current": branch.current }, ...cells];
}

function viewIdle(topology) {
  const { idle } = topology;
  if (!idle.length) return [];
  const rows = idle.map((part) => ["li", {}, ...tell("directions.idle_part", { name: setText(part.name, topology), why: whyIdle(part) })]);
  return [["p", {}, ...tell("directions.idle", { count: idle.length })], ["ul", {}, ...rows]];
}

/** Why a part is in no branch. */
export const whyIdle = (part) => say(part.resistance === null ? `idle.${part.kind}` : "idle.dead_end");

/** @param {Worked} worked @returns {Tree[]} */
export function viewJunctions(worked) {
  const { junctions, branches } = worked.topology;
  if (!junctions.length) return [["p", {}, ...tell(branches.length ? "junctions.none" : "junctions.no_current")]];
  const used = junctions.filter((junction) => junction.used);
  const enough = used.length === junctions.length - 1 ? say("junctions.enough", { count: used.length }) : "";
  const order = [...used, ...junctions.filter((junction) => !junction.used)];
  const intro = tell("junctions.intro", { junctions: junctions.length, enough });
  return [["p", {}, ...intro], ["ul", { class: "rule-list" }, ...order.map((junction, at) => viewJunction(junction, worked, at + 1))]];
}

function viewJunction(junction, { topology }, at) {
  const written = writeJunction(junction, topology.branches);
  const [enters, leaves] = ["enters", "leaves"].map((side) => listed(written.terms.filter(({ reason }) => reason === side).map(({ current }) => current)));
  const side = (names) => setText(names || say("junctions.nothing"), topology);
  const so = enters && leaves ? "" : say("junctions.one_sided");
  const key = junction.used ? "junctions.used" : "junctions.left_out";
  const points = junction.points.filter((point) => point !== junction.name).map(setPoint);
  const others = points.length ? tell(junction.used ? "junctions.others" : "junctions.left_out_others", { points: joined(points, ", ") }) : "";
  const says = ["p", {}, ...tell(key, { name: setPoint(junction.name), others, enters: side(enters), leaves: side(leaves), so })];
  if (!junction.used) return ["li", { class: "left-out", "data-junction": junction.name }, says];
  const formula = wholeEquation(written.terms.map((term) => [term.factor, term.current]));
  return ["li", { id: `junction-${at}`, "data-junction": junction.name }, says, numbered(formula, at)];
}

/** @param {Worked} worked @returns {Tree[]} */
export function viewLoops(worked) {
  const { topology, loopSet, written } = worked;
  if (!topology.loops.length) return [["p", {}, ...tell("loops.none")]];
  const used = topology.junctions.filter((junction) => junction.used).length;
  const intro = tell("loops.intro", {
    enough: say("loops.enough", { count: loopSet.needed }),
    unknowns: say("count.unknowns", { count: topology.branches.length }),
    equations: say("count.junction_equations", { count: used }),
    ...unitSymbols(worked.units),
  });
  const numbers = new Map(written.equations.map((each, at) => [`${each.rule} ${each.origin}`, at + 1]));
  const walks = topology.loops.map((loop) => viewLoop(loop, worked, numbers.get(`loop ${loop.name}`)));
  return [["p", {}, ...intro], ...viewMissing(loopSet, topology), ...walks];
}

/** What an insufficient set still needs. */
function viewMissing({ missing, untouched }, topology) {
  if (!missing) return [];
  const currents = setText(listed(untouched), topology);
  return [["p", { class: "set-missing" }, ...tell("loops.missing", { count: missing }), ...(untouched.length ? [" ", ...tell("loops.untouched", { currents })] : [])]];
}

function viewLoop(loop, worked, at) {
  const { topology, layout, units, loopSet } = worked;
  const written = equationInUnits(writeLoop(loop, topology), units);
  const id = `loop-${loop.name}`;
  const head = [column(say("loops.part")), column(say("loops.walked")), column(say("loops.term"), "number")];
  const repeat = loopSet.repeats.find((each) => each.name === loop.name);
  return [
    "section",
    { class: "loop-walk", ...(at ? { id: `loop-${at}` } : {}), "data-loop": loop.name, "aria-labelledby": id },
    ["h3", { id }, ...tell("loops.heading", { name: setText(loop.name, topology) })],
    ["p", {}, ...tell("loops.walk", { way: setText(loopWords(loop, layout), topology) })],
    table("walk", head, written.terms.map((term) => viewWalk(term, topology))),
    ...viewFormulas(written, at),
    ...(repeat ? [["p", { class: "set-repeats" }, ...tell("loops.repeats", { sum: setText(sumText(repeat.sum), topology) })]] : []),
  ];
}

/** The equation as it is walked; then with equal currents taken together, where that changes anything. */
function viewFormulas(written, at) {
  const walked = written.terms.filter((term) => !term.factor.isZero).map((term) => [term.factor, term.current]);
  const gathered = gatheredTerms(written);
  const key = (terms) => terms.map(([factor, current]) => `${factor} ${current}`).sort().join();
  return key(gathered) === key(walked) ? [numbered(wholeEquation(walked), at)] : [numbered(wholeEquation(walked)), numbered(wholeEquation(gathered), at)];
}

/** A sum of loops: L1 − L2. */
export function sumText(sum) {
  return sum.map(({ factor, name: loop }, at) => {
    const size = factor.size().toString() === "1" ? "" : `${plain(factor.size())} `;
    return `${factor.isNegative ? MINUS : at ? "+" : ""}${at ? " " : ""}${size}${loop}`;
  }).join(" ");
}

function viewWalk(term, topology) {
  const why = setText(say(`reason.${term.reason.replaceAll(" ", "_").replace("the_", "")}`, { current: term.current }), topology);
  return ["tr", { "data-part": term.origin }, rowHeading(["span", {}, ...setWalked(term, topology)]), cell(...why), numberCell(math(signedTerm(term)))];
}

/** A term with its sign, plus signs too: + 12, − 4 I1. */
function signedTerm({ factor, current, origin }) {
  if (factor.isZero) return row([number("0")], { class: "term", "data-part": origin });
  const [tag, attributes, ...children] = termSum([[factor, current]], { "data-part": origin });
  return [tag, attributes, ...(factor.isPositive ? [operator("+")] : []), ...children];
}

/** @param {Worked} worked @returns {Tree[]} */
export function viewEquations(worked) {
  const { written, units, topology } = worked;
  if (!written.equations.length) return [["p", {}, ...tell("equations.none")]];
  const intro = tell("equations.intro", {
    unknowns: say("count.unknowns", { count: topology.branches.length }),
    equations: say("count.equations", { count: written.equations.length }),
    ...unitSymbols(units),
  });
  return [["p", {}, ...intro], table("equation-set", [], written.equations.map((each, at) => viewEquation(each, at + 1, topology)))];
}

function viewEquation(written, at, topology) {
  const origin = tell(`equations.${written.rule}`, { name: written.rule === "junction" ? setPoint(written.origin) : setText(written.origin, topology) });
  return [
    "tr",
    { id: `equation-${at}`, "data-rule": written.rule, "data-origin": written.origin },
    rowHeading(`(${at})`),
    ["td", { class: "left" }, math(termSum(gatheredTerms(written)))],
    ["td", { class: "right" }, math(["mo", {}, "="], ["mn", {}, "0"])],
    ["td", { class: "origin" }, ...origin],
  ];
}

/** The three symbols that the prose names. */
export const unitSymbols = ({ voltage, resistance, current }) => ({ voltage, resistance, current });

/** A sum of terms that is zero, as a formula of its own. */
const wholeEquation = (terms) => math(equation(termSum(terms), number("0")));

/** A formula in a line of its own, with its number where it has one. */
function numbered(formula, at) {
  return ["p", { class: "equation" }, formula, ...(at ? [" ", ["span", { class: "equation-number" }, `(${at})`]] : [])];
}

/** A point's letter, set. */
export const setPoint = (point) => math(name(point));
