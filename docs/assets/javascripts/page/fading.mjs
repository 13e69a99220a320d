/**
 * Terms that are left to the student: which they are, and what is said to what was filled in.
 *
 * Help is taken away forward, the first terms of each equation before the later ones: of the orders that were tried on
 * circuits this one served best (Moreno, Reisslein, Ozogul, J. Eng. Educ. 98(1), 83, 2009). Each equation asks for its
 * rule (Atkinson, Renkl, Merrill, J. Educ. Psychol. 95, 774, 2003), and every answer gets its reason at once
 * (Van der Kleij, Feskens, Eggen, Rev. Educ. Res. 85, 475, 2015).
 */

import { fraction } from "../laws/fraction.mjs";
import { readFraction } from "../laws/read-fraction.mjs";
import { fold } from "../laws/read-number.mjs";
import { inUnits, readUnit, sizeOf } from "../laws/read-units.mjs";
import { setName } from "./prose.mjs";
import { throughOf } from "./terms.mjs";
import { speaking } from "./telling.mjs";
import sentences from "../help-sentences.mjs";

const { tell } = speaking(sentences);

/** @typedef {"" | "first" | "all"} Help empty: everything is worked out */

export const HELPS = ["", "first", "all"];

/** How many terms at the beginning of an equation are the student's. */
export function countYours(equation, help) {
  const count = equation.terms.length;
  return { "": 0, first: Math.ceil(count / 2), all: count }[help];
}

/** At a junction every term is a whole current; a size is asked for on the way round a loop. */
export const hasSize = ({ rule }) => rule === "loop";

/**
 * What is said to a term that was filled in.
 * @param {import("../laws/equation.mjs").Equation} equation in the units of the page
 * @param {import("../laws/equation.mjs").Term} term
 * @param {{sign: "" | "+" | "-" | "0", size: string}} answer
 * @param {import("../laws/meaning.mjs").Worked} worked
 * @returns {{verdict: "open" | "right" | "wrong", fault?: "sign" | "size", says: import("./saying.mjs").Tree[]}} open: something is still
 *   to be filled in; fault: which of the two is wrong
 */
export function judgeTerm(equation, term, { sign, size }, { topology, units }) {
  if (!sign) return { verdict: "open", says: [] };
  const isSized = hasSize(equation) && sign !== "0";
  // Plus nothing and minus nothing are nothing.
  if (isSized && term.factor.isZero && readFraction(fold(size).trim(), 0).value?.isZero) return { verdict: "right", says: [] };
  const signFault = findSignFault(equation, term, sign);
  const found = signFault ?? (isSized && size.trim() ? findSizeFault(term, size, topology, units) : "");
  if (found) {
    const why = tell(found, namesOf(equation, term, topology, units));
    return { verdict: "wrong", fault: signFault ? "sign" : "size", says: notRead.includes(found) ? why : tell("help.wrong", { why }) };
  }
  return isSized && !size.trim() ? { verdict: "open", says: tell("help.sign_right") } : { verdict: "right", says: [] };
}

const signFaults = {
  enters: "help.meets",
  leaves: "help.meets",
  "with the arrow": "help.along",
  "against the arrow": "help.against",
  "minus to plus": "help.minus_to_plus",
  "plus to minus": "help.plus_to_minus",
  "no resistance": "help.no_resistance",
};

function findSignFault({ rule }, { factor, reason, current }, sign) {
  const right = factor.isZero ? "0" : factor.isNegative ? "-" : "+";
  if (sign === right) return undefined;
  if (sign === "0" && rule === "loop") return current ? "help.has_resistance" : "help.has_emf";
  return signFaults[reason];
}

/** What was not written as a size is not held to be wrong. */
const notRead = ["help.sign_in_size", "help.unreadable"];

function findSizeFault({ factor, current, origin }, size, topology, units) {
  const text = fold(size).trim();
  if (/^[+-]/.test(text)) return "help.sign_in_size";
  const read = readFraction(text, 0);
  const rest = text.slice(read.end).trim();
  const unit = rest && readUnit(rest, 0);
  if (read.unreadable || (rest && unit?.length !== rest.length)) return "help.unreadable";
  if (unit && unit.measures !== (current ? "resistance" : "voltage")) return current ? "help.unit_resistance" : "help.unit_emf";
  const wanted = factor.size();
  const value = unit ? inUnits(read.value, unit, { voltage: sizeOf(units.voltage), resistance: sizeOf(units.resistance) }) : read.value;
  if (value.equals(wanted)) return undefined;
  const isOff = (scale) => value.times(scale).equals(wanted) || wanted.times(scale).equals(value);
  if ([1000, 1000000].map((step) => fraction(step)).some(isOff)) return "help.size_prefix";
  if (!current) return "help.size_emf";
  return topology.part[origin].kind === "battery" ? "help.size_internal" : "help.size_resistance";
}

function namesOf({ rule, origin }, term, topology, units) {
  const { current } = term;
  const unit = current ? units.resistance : units.voltage;
  return { part: rule === "loop" ? throughOf(term, topology) : "", current: setName(current, "current"), junction: setName(origin, "point"), unit };
}
