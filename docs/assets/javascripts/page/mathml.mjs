/** MathML for equations, names and numbers, as trees. Mirrors page/mathml.py. */

import { MINUS, SPACE, isTerminating, plain, rounded } from "../laws/numeral.mjs";
import { nameRuns } from "./prose.mjs";

export const math = (...children) => ["math", {}, ...children];

/** A whole formula in a line of its own. */
export const displayed = (...children) => ["math", { display: "block" }, ...children];

export const row = (children, attributes = {}) => ["mrow", attributes, ...children];

/** A sign between terms, or before the first: where a row begins with it, it belongs to what follows. */
export const operator = (sign) => ["mo", {}, sign];

/** A number as written; its minus is part of it. */
export const number = (text) => (text.startsWith(MINUS) ? row([operator(MINUS), ["mn", {}, text.slice(1)]]) : ["mn", {}, text]);

/** A name: its letter italic, the rest an upright subscript. */
export function name(text) {
  const [first, below] = nameRuns(text);
  if (below === undefined) return ["mi", {}, first];
  return ["msub", {}, ["mi", {}, first], [/^\d+$/.test(below) ? "mn" : "mtext", {}, below]];
}

/** An exact number: a terminating decimal, or a fraction with its sign before it. */
export function fractionTree(value) {
  if (isTerminating(value)) return number(plain(value));
  const upright = ["mfrac", {}, ["mn", {}, `${value.size().numerator}`], ["mn", {}, `${value.denominator}`]];
  return value.isNegative ? row([operator(MINUS), upright]) : upright;
}

const unit = (text) => ["mtext", {}, SPACE + text];

/** An exact value with its unit. */
export const quantity = (value, symbol) => row([fractionTree(value), unit(symbol)]);

/** A rounded value with its unit. */
export const about = (value, symbol) => row([number(rounded(value)), unit(symbol)]);

/** A term without its sign: 4 I1, or I1 alone where the factor is 1; a plain number where there is no current. */
function product(factor, current) {
  const size = factor.size();
  if (!current) return number(plain(size));
  if (size.toString() === "1") return name(current);
  return row([fractionTree(size), ["mspace", { width: "0.2em" }], name(current)]);
}

/**
 * A sum of terms with their signs: 12 − 4 I1 + I2; 0 where there is none.
 * @param {[import("../laws/fraction.mjs").Fraction, string][]} terms
 */
export function termSum(terms, attributes = {}) {
  const written = terms.flatMap(([factor, current], at) => {
    const sign = factor.isNegative ? MINUS : "+";
    const term = row([product(factor, current)], { class: "term", "data-current": current });
    return at || factor.isNegative ? [operator(sign), term] : [term];
  });
  return row(written.length ? written : [["mn", {}, "0"]], attributes);
}

export const equation = (left, right) => row([left, operator("="), right]);
