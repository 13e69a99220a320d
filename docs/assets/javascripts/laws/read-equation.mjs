/**
 * Reading an equation as a student types it, exactly, without ever running it.
 *
 * What is read is always "left side minus right side" as one number for each unknown and one without: a row. A text
 * that cannot be read comes back with the place and the reason.
 */
import { ONE, ZERO } from "./fraction.mjs";
import { readLatex } from "./read-latex.mjs";
import { listNames, readName } from "./read-names.mjs";
import { fold, readNumber } from "./read-number.mjs";
import { inUnits, readUnit } from "./read-units.mjs";

const LONGEST = 300;
const DEEPEST = 20;
const HIGHEST_POWER = 12n;
const MINUS_ONE = ONE.negated();

/** @typedef {import("./fraction.mjs").Fraction} Fraction */
/** @typedef {{at: number, length: number, reason: string}} Unreadable where it stands, how long it is, a key of ../verdicts.mjs */

/** What stops the reading. */
class Stop extends Error {
  constructor(reason, at, length = 1) {
    super(reason);
    this.spot = { at, length, reason };
  }
}

/**
 * Read one equation in one choice of units.
 * @param {string} typed
 * @param {object} circuit unknowns and parts
 * @param {object} choice of units, from unitChoices
 * @param {{byThousands?: boolean, plainInner?: boolean}} [reading] which of two possible readings is wanted
 * @returns {{row: Fraction[], left: Fraction[], right: Fraction[], terms: Fraction[][], equals: boolean} | {unreadable: Unreadable}} row: one number for each unknown, then the constant; terms:
 *   the same for each term, with its sign as it is on the left
 */
export function readEquation(typed, circuit, choice, reading = {}) {
  const { text: latex, places } = readLatex(`${typed ?? ""}`.slice(0, LONGEST));
  if (`${typed ?? ""}`.length > LONGEST) return { unreadable: { at: LONGEST, length: 1, reason: "too-long" } };
  const text = fold(latex);
  const reader = { text, at: 0, depth: 0, terms: [], circuit, choice, width: circuit.unknowns.length, names: listNames(circuit, reading.plainInner), reading };
  try {
    return readSides(reader);
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    const { at, length, reason } = stop.spot;
    return { unreadable: { at: places[at], length: places[at + length] - places[at], reason } };
  }
}

function readSides(reader) {
  skip(reader);
  if (atEnd(reader)) throw new Stop("empty", 0, 0);
  const left = readSum(reader);
  if (atEnd(reader)) return { row: left, left, right: constant(reader, ZERO), terms: reader.terms, equals: false };
  if (peek(reader) !== "=") throw new Stop(...strange(reader));
  reader.at += 1;
  const count = reader.terms.length;
  const right = readSum(reader);
  if (peek(reader) === "=") throw new Stop("two-equals", reader.at);
  if (!atEnd(reader)) throw new Stop(...strange(reader));
  const terms = reader.terms.map((term, at) => (at < count ? term : scale(term, MINUS_ONE)));
  return { row: sum(left, scale(right, MINUS_ONE)), left, right, terms, equals: true };
}

function readSum(reader) {
  let total = readTerm(reader);
  while ("+-".includes(peek(reader) || "?")) total = sum(total, readTerm(reader));
  return total;
}

/** One term of a sum; those outside all brackets are kept one by one, so that each can be laid beside a law's. */
function readTerm(reader) {
  const term = readProduct(reader);
  if (!reader.depth) reader.terms.push(term);
  return term;
}

/** Factors one after the other; what only stands side by side is multiplied too, so 3/2 I1 is (3/2) × I1. */
function readProduct(reader) {
  let product = readFactor(reader);
  for (;;) {
    const sign = peek(reader);
    const { at } = reader;
    if (sign === "*" || sign === "/" || isTimes(reader)) reader.at += 1;
    else if (!beginsFactor(reader)) return product;
    const factor = readFactor(reader);
    product = sign === "/" ? divide(product, factor, at, reader.at - at) : multiply(product, factor, at, reader.at - at);
  }
}

/** An x before a factor is a sign, unless it begins a name of this circuit. */
const isTimes = ({ text, at, names }) => /^x *[-+]? *[\w(.,|½⅓¼]/i.test(text.slice(at, at + 9)) && !readName(text, at, names);

function readFactor(reader) {
  let sign = ONE;
  while ("+-".includes(peek(reader) || "?")) {
    if (peek(reader) === "-") sign = sign.negated();
    reader.at += 1;
    skip(reader);
  }
  return scale(readPower(reader), sign);
}

function readPower(reader) {
  const base = readPrimary(reader);
  const found = take(reader, /\^ ?\(?([+-]?\d{1,2})\)?|([\u207b]?[\u00b9\u00b2\u00b3\u2070\u2074-\u2079]{1,2})/y);
  if (!found) return base;
  const power = BigInt(found[1] ?? plainPower(found[2]));
  const at = reader.at - found[0].length;
  if (!isConstant(base)) throw new Stop("power", at, found[0].length);
  if (power > HIGHEST_POWER || power < -HIGHEST_POWER) throw new Stop("power-too-high", at, found[0].length);
  if (power < 0n && base.at(-1).isZero) throw new Stop("divided-by-zero", at, found[0].length);
  return constant(reader, raise(base.at(-1), power));
}

const plainPower = (signs) => [...signs].map((sign) => (sign === "\u207b" ? "-" : "\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079".indexOf(sign))).join("");

function raise(base, power) {
  const size = power < 0n ? -power : power;
  const factor = power < 0n ? ONE.over(base) : base;
  let product = ONE;
  for (let count = 0n; count < size; count += 1n) product = product.times(factor);
  return product;
}

function readPrimary(reader) {
  skip(reader);
  const { text, at } = reader;
  if (text[at] === "(") return readBracket(reader);
  const number = readNumber(text, at, reader.reading.byThousands);
  if (number) return readQuantity(reader, number);
  const name = readName(text, at, reader.names);
  if (!name) throw new Stop(...strange(reader));
  reader.at += name.length;
  return mean(reader, name.meaning);
}

function readBracket(reader) {
  const start = reader.at;
  if (reader.depth >= DEEPEST) throw new Stop("too-deep", start);
  reader.at += 1;
  reader.depth += 1;
  const inside = readSum(reader);
  if (peek(reader) !== ")") throw atEnd(reader) || peek(reader) === "=" ? new Stop("bracket-open", start) : new Stop(...strange(reader));
  reader.at += 1;
  reader.depth -= 1;
  return inside;
}

function readQuantity(reader, number) {
  if (number.tooLong) throw new Stop("too-many-digits", reader.at, number.length);
  reader.at += number.length;
  const space = reader.text[reader.at] === " " ? 1 : 0;
  const unit = readUnit(reader.text, reader.at + space);
  const name = readName(reader.text, reader.at + space, reader.names);
  if (!unit || (name && name.length > unit.length)) return constant(reader, number.value);
  reader.at += space + unit.length;
  return constant(reader, inUnits(number.value, unit, reader.choice));
}

/** A current is an unknown; a part's name is its value. */
function mean(reader, meaning) {
  if (meaning.current !== undefined) return unit(reader, meaning.current);
  const part = reader.circuit.part[meaning.part];
  const measures = meaning.quantity === "emf" ? "voltage" : "resistance";
  return constant(reader, inUnits(part[meaning.quantity], { size: ONE, measures }, reader.choice));
}

const unit = ({ width }, index) => Array.from({ length: width + 1 }, (_, at) => (at === index ? ONE : ZERO));
const constant = ({ width }, value) => Array.from({ length: width + 1 }, (_, at) => (at === width ? value : ZERO));
const isConstant = (row) => row.slice(0, -1).every((value) => value.isZero);
const sum = (left, right) => left.map((value, at) => value.plus(right[at]));
const scale = (row, factor) => row.map((value) => value.times(factor));

function multiply(left, right, at, length) {
  if (isConstant(right)) return scale(left, right.at(-1));
  if (isConstant(left)) return scale(right, left.at(-1));
  throw new Stop("product-of-currents", at, length);
}

function divide(left, right, at, length) {
  if (!isConstant(right)) throw new Stop("divided-by-current", at, length);
  if (right.at(-1).isZero) throw new Stop("divided-by-zero", at, length);
  return scale(left, ONE.over(right.at(-1)));
}

const peek = (reader) => (skip(reader), reader.text[reader.at]);
const atEnd = (reader) => (skip(reader), reader.at >= reader.text.length);
const beginsFactor = (reader) => peek(reader) === "(" || Boolean(readName(reader.text, reader.at, reader.names));

function skip(reader) {
  while (reader.text[reader.at] === " ") reader.at += 1;
}

function take(reader, shape) {
  shape.lastIndex = reader.at;
  const found = shape.exec(reader.text);
  if (found) reader.at += found[0].length;
  return found;
}

/** Why nothing can be read here: [reason, place, length]. */
function strange(reader) {
  const { at, text } = reader;
  const found = /\\[A-Za-z]*|[A-Za-z\u0370-\u03ff][A-Za-z]*[ _]?\(?\d*\)?|[\d.,]+/y;
  found.lastIndex = at;
  const word = found.exec(text)?.[0].trim() ?? text[at] ?? "";
  if (!word) return ["ends-early", Math.max(at - 1, 0), 1];
  if (word[0] === "\\") return ["unknown-command", at, word.length];
  if (word[0] === ")") return ["bracket-close", at, 1];
  if ("=*/".includes(word[0])) return ["term-missing", at, 1];
  if (/^[Ii]_?\(\d*$/.test(word) && !text.includes(")", at)) return ["bracket-open", at + word.indexOf("("), 1];
  if (/^[Ii](?:[ _]?\(?\d|$)/.test(word)) return ["no-such-current", at, word.length];
  if (/^[\d.,]/.test(word)) return ["number-behind", at, word.length];
  return [/^[A-Za-z\u0370-\u03ff]/.test(word) ? "unknown-name" : "strange-sign", at, word.length];
}
