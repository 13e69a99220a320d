/**
 * Whole-number rows for work by hand, and the cheapest way to eliminate all of them down to one current. Mirrors
 * laws/hand_rows.py.
 *
 * Rows hold numbers where all of them are small, which is fast, and BigInts where one is not: every function here works
 * on both, and `TooLarge` says when the small ones will not do.
 */

import { Fraction, fraction, greatestDivisor } from "./fraction.mjs";

const WIDEST_FULL_SEARCH = 3;
const WIDEST_COMPARISON = 5;

/** Sums of up to a hundred numbers below this are exact. */
const LARGEST = 2 ** 46;

/** Thrown where numbers get too large to be exact. */
export class TooLarge extends Error {}

const sizeOf = (number) => (number < 0 ? -number : number);

/**
 * @typedef {{factors: (number | bigint)[], right: number | bigint, parents: Row[], multipliers: (number | bigint)[],
 *   scale: Fraction | number | bigint, effort: number, size: number | bigint}} Row
 */

/** @returns {Row} */
function makeRow(factors, right, parents, multipliers, scale, effort) {
  let size = sizeOf(right);
  for (const factor of factors) size += sizeOf(factor);
  return { factors, right, parents, multipliers, scale, effort, size };
}

/**
 * A row from an equation with fractions: whole numbers without a common factor, first factor positive.
 * @param {Fraction[]} factors
 * @param {Fraction} right
 * @param {number} effort what it cost to write the equation down
 * @param {(value: bigint) => number | bigint} whole Number or BigInt
 */
export function firstRow(factors, right, effort, whole) {
  const numbers = [...factors, right];
  let [above, below] = [0n, 1n];
  for (const { numerator, denominator } of numbers) {
    above = greatestDivisor(above, numerator);
    below = (below / greatestDivisor(below, denominator)) * denominator;
  }
  const first = numbers.find((value) => !value.isZero);
  const scale = fraction(first?.isNegative ? -(above || 1n) : above || 1n, below);
  const row = numbers.map((value) => whole((value.numerator * scale.denominator) / (value.denominator * scale.numerator)));
  if (row.some((value) => typeof value === "number" && sizeOf(value) > LARGEST)) throw new TooLarge();
  const cost = scale.size().toString() === "1" ? 0 : row.slice(0, -1).reduce((sum, value) => sum + digits(value), 0);
  return makeRow(row.slice(0, -1), row.at(-1), [], [], scale, effort + cost);
}

/** Eliminates one current from two rows that both hold it. */
export function combine(one, other, column) {
  const [a, b] = [one.factors[column], other.factors[column]];
  const common = b > 0 ? divisor(a, b) : -divisor(a, b);
  const [m, n] = [b / common, -a / common];
  // Plain loops: this is where nearly all time of a search goes.
  const factors = [];
  const right = added(m, one.right, n, other.right);
  let [above, first] = [sizeOf(right), undefined];
  for (let at = 0; at < one.factors.length; at += 1) {
    const factor = added(m, one.factors[at], n, other.factors[at]);
    if (factor) above = divisor(above, factor);
    first ??= factor || undefined;
    factors.push(factor);
  }
  const scale = above ? ((first ?? right) < 0 ? -above : above) : b / b;
  for (let at = 0; at < factors.length; at += 1) factors[at] = factors[at] / scale || scale - scale;
  const effort = productEffort(m, one) + productEffort(n, other) + factors.length + 1;
  return makeRow(factors, right / scale || scale - scale, [one, other], [m, n], scale, effort);
}

function added(m, x, n, y) {
  const [one, other] = [m * x, n * y];
  if (typeof one === "number" && Math.abs(one) + Math.abs(other) > LARGEST) throw new TooLarge();
  return one + other;
}

/** The greatest common divisor, of numbers or of BigInts. */
function divisor(one, other) {
  let [a, b] = [sizeOf(one), sizeOf(other)];
  while (b) [a, b] = [b, a % b];
  return a;
}

/** What it costs to multiply a row. */
function productEffort(multiplier, row) {
  const width = digits(multiplier);
  // eslint-disable-next-line eqeqeq -- 1n and 1 are one and the same here
  if (sizeOf(multiplier) == 1) return 0;
  let effort = row.right ? width * digits(row.right) : 0;
  for (const factor of row.factors) if (factor) effort += width * digits(factor);
  return effort;
}

/** How many digits a number has, zeros at its end left out. */
export function digits(number) {
  if (typeof number === "bigint") return String(sizeOf(number)).replace(/0+$/, "").length || 1;
  let rest = Math.abs(number);
  while (rest >= 10 && rest % 10 === 0) rest /= 10;
  let count = 1;
  for (let power = 10; power <= rest; power *= 10) count += 1;
  return count;
}

/**
 * The cheapest way found from independent rows to one that holds only the target column.
 * @param {Row[]} rows
 * @param {number} target
 * @returns {{last: Row, pivots: [number, Row][], rows: Row[], effort: [number, number | bigint]}}
 */
export function eliminate(rows, target) {
  let best = null;
  for (const { last, pivots } of findEliminations(rows, target, [])) {
    const needed = ancestry(last);
    const effort = [needed.reduce((sum, row) => sum + row.effort, 0), needed.map((row) => row.size).reduce((sum, size) => sum + size)];
    if (!best || isLess(effort, best.effort)) best = { last, pivots, rows: needed, effort };
  }
  return { ...best, pivots: best.pivots() };
}

/** Whether one pair comes before another. */
export const isLess = ([first, second], [otherFirst, otherSecond]) => first < otherFirst || (first === otherFirst && second < otherSecond);

/** A row and all it was made from, parents before children, each once. */
export function ancestry(last) {
  const order = new Set();
  const visit = (row) => {
    row.parents.forEach(visit);
    order.add(row);
  };
  visit(last);
  return [...order];
}

/** All ways worth trying; the pivots of one are only worked out for the way that is taken. */
function* findEliminations(rows, target, pivots) {
  const done = rows.find((row) => row.factors.every((factor, column) => Boolean(factor) === (column === target)));
  if (done) {
    yield { last: done, pivots: () => [...pivots, ...matchPivots(rows, done, target)] };
    return;
  }
  for (const [column, pivot] of findTurns(rows, target)) {
    yield* findEliminations(strikeOut(rows, column, pivot), target, [...pivots, [column, pivot]]);
  }
}

function findTurns(rows, target) {
  const columns = rows[0].factors.map((_, column) => column).filter((column) => column !== target);
  if (rows.length > WIDEST_COMPARISON) return [sparsestTurn(rows, columns)];
  const turns = columns.flatMap((column) => rows.filter((row) => row.factors[column]).map((pivot) => [column, pivot]));
  if (rows.length <= WIDEST_FULL_SEARCH) return turns;
  let [best, least] = [turns[0], turnEffort(rows, ...turns[0])];
  for (const turn of turns.slice(1)) {
    const effort = turnEffort(rows, ...turn);
    if (isLess(effort, least)) [best, least] = [turn, effort];
  }
  return [best];
}

/** The column in the fewest rows, with the smallest of them: for circuits too large to compare every turn. */
function sparsestTurn(rows, columns) {
  const held = columns.map((column) => [column, rows.filter((row) => row.factors[column])]).filter(([, holders]) => holders.length);
  const [column, holders] = held.reduce((best, each) => (each[1].length < best[1].length ? each : best));
  return [column, holders.reduce((best, row) => (row.size < best.size ? row : best))];
}

/** The rows left when one current is eliminated with the help of one of them. */
function strikeOut(rows, column, pivot) {
  return rows.filter((row) => row !== pivot).map((row) => (row.factors[column] ? combine(row, pivot, column) : row));
}

/** What one turn costs, and how large its numbers get. */
function turnEffort(rows, column, pivot) {
  const made = strikeOut(rows, column, pivot);
  const effort = made.reduce((sum, row) => sum + (row.parents.includes(pivot) ? row.effort : 0), 0);
  return [effort, made.map((row) => row.size).reduce((sum, size) => sum + size)];
}

/** For currents that the way to the target did not need, the rows from which they are found once it is known. */
function matchPivots(rows, done, target) {
  const pairs = [];
  const known = new Set([target]);
  let left = rows.filter((row) => row !== done);
  while (left.length) {
    const pivot = left.reduce((best, row) => (openIn(row, known).length < openIn(best, known).length ? row : best));
    const [column, ...others] = openIn(pivot, known);
    pairs.push([column, pivot]);
    if (!others.length) known.add(column);
    left = others.length ? strikeOut(left, column, pivot) : left.filter((row) => row !== pivot);
  }
  return pairs;
}

/** The columns of a row that are not known yet. */
export function openIn(row, known) {
  return row.factors.flatMap((factor, column) => (factor && !known.has(column) ? [column] : []));
}
