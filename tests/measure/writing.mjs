/** Equations as different people type them. */
import { fraction, ONE } from "../../docs/assets/javascripts/laws/fraction.mjs";
import { pick, shuffle } from "./random.mjs";

const sizes = { M: fraction(1000000n), k: fraction(1000n), m: fraction(1n, 1000n), µ: fraction(1n, 1000000n) };
const sizeOf = (unit) => (unit.length > 1 ? sizes[unit[0]] : ONE);

/** In the page's units, or in V, Ω and A. */
export function unitsFor(example, random) {
  return random() < 0.7 ? example.units : { voltage: "V", resistance: "Ω", current: "A" };
}

/**
 * Terms (in SI units, with zero as their sum) as one line of text: any sense, side, order, factor and way of writing.
 * @param {object[]} terms
 * @param {{rule: string}} law
 * @param {object} units
 * @param {() => number} random
 */
export function type(terms, law, units, random) {
  const factor = pick([ONE, ONE, ONE, ONE.negated(), fraction(2n), fraction(1n, 2n), fraction(-3n)], random);
  const style = { comma: random() < 0.3, sign: pick([" ", "", "*", " · "], random), subscript: pick(["", "_", "{}"], random), minus: pick(["-", "−"], random), units: random() < 0.2 };
  const chosen = shuffle(terms, random).map((term) => ({ ...term, factor: term.factor.times(factor).over(sizeFor(term, law, units)), unit: unitFor(term, law, units) }));
  const right = chosen.filter(() => random() < 0.3);
  const left = chosen.filter((term) => !right.includes(term));
  return `${side(left, style)} = ${side(right.map((term) => ({ ...term, factor: term.factor.negated() })), style)}`;
}

const unitFor = ({ current }, { rule }, units) => (rule === "junction" ? "" : current ? units.resistance : units.voltage);
/** The unit of a term, as a number of SI units. */
export const sizeFor = (term, law, units) => (unitFor(term, law, units) ? sizeOf(unitFor(term, law, units)) : ONE);

function side(terms, style) {
  if (!terms.length) return "0";
  return terms.map((term, at) => `${term.factor.isNegative ? (at ? ` ${style.minus} ` : style.minus) : at ? " + " : ""}${one(term, style)}`).join("");
}

function one({ factor, current, unit }, style) {
  const size = factor.size();
  const digits = write(size, style) + (style.units && unit ? ` ${unit}` : "");
  if (!current) return digits;
  const [, letters, rest] = /^(\D*)(.*)$/.exec(current);
  const name = style.subscript === "{}" && rest ? `${letters}_{${rest}}` : rest ? `${letters}${style.subscript}${rest}` : current;
  return size.equals(ONE) && !(style.units && unit) ? name : `${digits}${style.units && unit && !style.sign ? " " : style.sign}${name}`;
}

function write(size, { comma }) {
  const [below, ends] = [size.denominator, endsWith(size.denominator)];
  if (below === 1n) return `${size.numerator}`;
  if (ends === null) return `${size.numerator}/${below}`;
  const digits = ((size.numerator * 10n ** BigInt(ends)) / below).toString().padStart(ends + 1, "0");
  return `${digits.slice(0, -ends)}${comma ? "," : "."}${digits.slice(-ends)}`;
}

function endsWith(below) {
  for (let places = 0; places < 12; places += 1) if (10n ** BigInt(places) % below === 0n) return places;
  return null;
}
