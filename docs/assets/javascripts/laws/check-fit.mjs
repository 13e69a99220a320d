/**
 * Which laws a set of typed numbers fits, in whole numbers throughout.
 *
 * With x̂ = X / N the sum of a law is row · (X, N); rounding each number by one unit of its last figure can move it by no
 * more than |row| · Δ, and that much is forgiven.
 */
import { commonDenominator } from "./check-laws.mjs";
import { IndependentRows, solve } from "./elimination.mjs";
import { fraction, ONE, ZERO } from "./fraction.mjs";

/** @typedef {{numbers: bigint[], steps: bigint[]}} Scaled the numbers X and, last, N; the steps Δ */

/** Typed numbers as whole numbers. */
export function scaleNumbers(typed) {
  const common = commonDenominator(typed.flatMap(({ value, step }) => [value, step]));
  const whole = (value) => (value.numerator * common) / value.denominator;
  return { numbers: [...typed.map(({ value }) => whole(value)), common], steps: [...typed.map(({ step }) => whole(step)), 0n] };
}

export const sumOf = (row, { numbers }) => row.reduce((sum, value, at) => (value ? sum + value * numbers[at] : sum), 0n);
const size = (value) => (value < 0n ? -value : value);
const slack = (row, { steps }) => row.reduce((sum, value, at) => (value ? sum + size(value) * steps[at] : sum), 0n);

/** Whether a law holds as far as printed digits can tell. */
export const holds = (row, scaled) => size(sumOf(row, scaled)) <= slack(row, scaled);

/** Whether it holds as well as for numbers that were rounded once, by half a unit of their last figures. */
export const holdsClosely = (row, scaled) => 2n * size(sumOf(row, scaled)) <= slack(row, scaled);

/** A row with a slip in it. */
export function changed(row, change) {
  const next = [...row];
  for (const [column, amount] of change) next[column] += amount;
  return next;
}

/**
 * All currents that some laws leave possible, where exactly one more law is needed: a point and a direction.
 * @param {import("./check-laws.mjs").Law[]} held
 * @returns {{point: Fraction[], direction: Fraction[]} | null} null where more is open, or nothing
 */
export function findLine(held, count) {
  const known = new IndependentRows();
  const basis = held.filter(({ vector }) => known.add(vector) === null);
  if (basis.length !== count - 1) return null;
  return drawLine(basis.map(({ row }) => row.map((value) => fraction(value))), count);
}

function drawLine(rows, count) {
  const known = new IndependentRows();
  if (rows.some((row) => known.add(row.slice(0, -1)) !== null)) return null;
  const units = Array.from({ length: count }, (_, at) => Array.from({ length: count }, (__, other) => (at === other ? ONE : ZERO)));
  const last = units.find((row) => known.add(row) === null);
  const matrix = [...rows.map((row) => row.slice(0, -1)), last];
  const rights = rows.map((row) => row.at(-1).negated());
  const point = solve(matrix, [...rights, ZERO]);
  const other = solve(matrix, [...rights, ONE]);
  return { point, direction: other.map((value, at) => value.minus(point[at])) };
}

/** Where a row meets the line; null where it never does. */
export function meet({ point, direction }, row) {
  const along = direction.reduce((sum, value, at) => (row[at] ? sum.plus(value.times(fraction(row[at]))) : sum), ZERO);
  if (along.isZero) return null;
  const rest = point.reduce((sum, value, at) => (row[at] ? sum.plus(value.times(fraction(row[at]))) : sum), fraction(row.at(-1)));
  const share = rest.over(along).negated();
  return point.map((value, at) => value.plus(direction[at].times(share)));
}

/** The exact currents of as many rows as there are unknowns; null where they decide nothing. */
export function solveRows(rows) {
  try {
    return solve(rows.map((row) => row.slice(0, -1).map((value) => fraction(value))), rows.map((row) => fraction(-row.at(-1))));
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Whether typed numbers are exact currents, rounded. */
export const isRoundedFrom = (currents, typed) => typed.every(({ value, step }, at) => value.minus(currents[at]).size().compare(step) <= 0);
