/** How exact numbers are written: the only place that turns a Fraction into digits. Mirrors circuit/numeral.py. */

import { parse } from "./fraction.mjs";

export const MINUS = "\u2212";
export const SPACE = "\u00a0";

/** Whether the number has a decimal with an end. */
export function isTerminating(number) {
  let rest = number.denominator;
  for (const prime of [2n, 5n]) while (rest % prime === 0n) rest /= prime;
  return rest === 1n;
}

/**
 * The number exactly, the way it goes on in a calculation: 12, −0.25, 12/17.
 * @param {import("./fraction.mjs").Fraction} number
 * @returns {string}
 */
export function plain(number) {
  const size = number.size();
  if (size.isWhole || !isTerminating(size)) return signedText(number, size.toString());
  // The sign counts among the eight signs that a decimal may have.
  const digits = decimals(number);
  return signedText(number, digits.length > 8 ? size.toString() : decimals(size));
}

/** A terminating number as plain decimals, all of them. */
export function decimals(number) {
  let places = 0;
  while ((number.numerator * 10n ** BigInt(places)) % number.denominator !== 0n) places += 1;
  const shifted = (number.size().numerator * 10n ** BigInt(places)) / number.denominator;
  return (number.isNegative ? "-" : "") + withPoint(shifted, places);
}

/**
 * The number to so many significant figures, in plain decimals, halves away from zero: 0.0938, −1.33, 12.0.
 * @param {import("./fraction.mjs").Fraction} number
 * @param {number} [figures]
 * @returns {string}
 */
export function rounded(number, figures = 3) {
  if (number.isZero) return "0";
  const size = number.size();
  let last = leadingPlace(size) - figures + 1;
  let digits = roundedAt(size, last);
  if (digits === 10n ** BigInt(figures)) {
    last += 1;
    digits /= 10n;
  }
  return signedText(number, last >= 0 ? `${digits * 10n ** BigInt(last)}` : withPoint(digits, -last));
}

/** Whether so many significant figures say the number exactly. */
export function isExactWhenRounded(number, figures = 3) {
  return parse(rounded(number, figures).replace(MINUS, "-")).equals(number);
}

/** The digits of the size, with a true minus sign where the number is negative. */
export function signedText(number, size) {
  return number.isNegative ? MINUS + size : size;
}

/** Digits and unit with a no-break space between. */
export function withUnit(digits, unit) {
  return digits + SPACE + unit;
}

/** The power of ten of the first digit of a positive number. */
function leadingPlace(size) {
  let place = size.numerator.toString().length - size.denominator.toString().length;
  const reached = place >= 0 ? size.numerator >= size.denominator * 10n ** BigInt(place) : size.numerator * 10n ** BigInt(-place) >= size.denominator;
  if (!reached) place -= 1;
  return place;
}

/** How many times the power of ten goes into a positive number, to the nearest, halves up. */
function roundedAt(size, place) {
  const above = place < 0 ? size.numerator * 10n ** BigInt(-place) : size.numerator;
  const below = place > 0 ? size.denominator * 10n ** BigInt(place) : size.denominator;
  return (2n * above + below) / (2n * below);
}

/** A whole number with a point before its last so many digits. */
function withPoint(whole, places) {
  const digits = whole.toString().padStart(places + 1, "0");
  return places ? `${digits.slice(0, -places)}.${digits.slice(-places)}` : digits;
}
