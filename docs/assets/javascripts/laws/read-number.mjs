/**
 * Reading one number as it is typed: 12, 0.5, 0,5, .5, 4 700, 1,234.5, 1.234,5, ½.
 *
 * A comma is a decimal comma, unless the number can only be read in groups of three; where both are possible the
 * caller may ask for the other reading.
 */
import { fraction } from "./fraction.mjs";

/** @typedef {{value: import("./fraction.mjs").Fraction, length: number, figures: number, places: number, whole: boolean}} TypedNumber */

const MOST_DIGITS = 24;
const vulgar = { "½": [1n, 2n], "⅓": [1n, 3n], "⅔": [2n, 3n], "¼": [1n, 4n], "¾": [3n, 4n], "⅕": [1n, 5n], "⅛": [1n, 8n] };

// In the order in which they are tried: how a number looks, then what only groups its digits, then its decimal sign.
const inGroups = [
  [/\d{1,3}(?:,\d{3})+\.\d+/y, /,/g, "."],
  [/\d{1,3}(?:\.\d{3})+,\d+/y, /\./g, ","],
  [/\d{1,3}(?: \d{3})+(?![\d ]*\d)(?:[.,]\d+)?/y, / /g, /[.,]/],
];
const thousands = [/\d{1,3}(?:,\d{3})+(?![\d.,])/y, /,/g, "."];
const ordinary = [/\d+(?:[.,]\d*)?|[.,]\d+/y, /$^/g, /[.,]/];

/**
 * The number that begins at a place of a folded text, or null.
 * @param {string} text
 * @param {number} at
 * @param {boolean} byThousands read 4,700 as four thousand seven hundred
 * @returns {TypedNumber | {tooLong: true, length: number} | null}
 */
export function readNumber(text, at, byThousands = false) {
  if (vulgar[text[at]]) {
    return { value: fraction(...vulgar[text[at]]), length: 1, figures: Infinity, places: Infinity, whole: false };
  }
  for (const [shape, groups, point] of [...inGroups, ...(byThousands ? [thousands] : []), ordinary]) {
    shape.lastIndex = at;
    const found = shape.exec(text);
    if (found) return build(found[0], found[0].replace(groups, "").split(point));
  }
  return null;
}

function build(typed, [whole, decimals = ""]) {
  const digits = whole + decimals;
  if (digits.length > MOST_DIGITS) return { tooLong: true, length: typed.length };
  return {
    value: fraction(BigInt(digits || "0"), 10n ** BigInt(decimals.length)),
    length: typed.length,
    figures: digits.replace(/^0+/, "").length,
    places: decimals.length,
    whole: !decimals,
  };
}

/** Whether the text holds a number that can be read in two ways: 4,700. */
export const hasTwoReadings = (text) => /(?:^|[^\d.,])[1-9]\d{0,2}(?:,\d{3})+(?![\d.,])/.test(text);

const folds = Object.fromEntries([
  ...[..."−–—‒‐‑﹣"].map((sign) => [sign, "-"]),
  ...[..."·×∙⋅•✕✖∗"].map((sign) => [sign, "*"]),
  ...[..."÷⁄∕"].map((sign) => [sign, "/"]),
  ...[..."[{"].map((sign) => [sign, "("]),
  ...[..."]}"].map((sign) => [sign, ")"]),
  ..."₀₁₂₃₄₅₆₇₈₉".split("").map((sign, digit) => [sign, `${digit}`]),
  ...[..."\u00a0\u2009\u202f\u2007\u2002\u2003\u200b\u2060\t\n\r"].map((sign) => [sign, " "]),
  // The ohm sign and a small omega, both spellings of micro, the curly epsilons that stand for an emf.
  ["\u2126", "\u03a9"], ["\u03c9", "\u03a9"], ["\u03bc", "\u00b5"], ["\u03f5", "\u03b5"], ["\u2130", "\u03b5"], ["\u2248", "="],
]);

/** The same text, character for character, with one sign for each thing that keyboards write in several ways. */
export function fold(text) {
  return text.replace(/[^ -~]/g, (sign) => {
    const code = sign.charCodeAt(0);
    return code > 0xff00 && code < 0xff5f ? fold(String.fromCharCode(code - 0xfee0)) : (folds[sign] ?? sign);
  }).replace(/[[\]{}\t\n\r]/g, (sign) => folds[sign]);
}
