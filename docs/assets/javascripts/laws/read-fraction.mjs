/** Reading one number, fraction or mixed number as it is typed: 0.5, 1/3, 2 1/2. */
import { fraction, ZERO } from "./fraction.mjs";
import { readNumber } from "./read-number.mjs";

/** What stops a reading: where, how many characters, a key of ../verdicts.mjs. */
export const stop = (reason, at, length = 1) => ({ unreadable: { at, length, reason } });

/**
 * The number that begins at a place of a folded text.
 * @param {string} text
 * @param {number} at
 * @param {boolean} [byThousands] read 4,700 as four thousand seven hundred
 * @returns {{value: import("./fraction.mjs").Fraction, end: number, figures: number, exact: boolean, whole: boolean,
 *   unit: import("./fraction.mjs").Fraction} | {unreadable: {at: number, length: number, reason: string}}}
 *   unit: one unit of the last typed figure, 0 for a fraction
 */
export function readFraction(text, at, byThousands) {
  const first = readNumber(text, at, byThousands);
  if (!first) return stop("no-number", at, Math.max(text.length - at, 0));
  if (first.tooLong) return stop("too-many-digits", at, first.length);
  const end = at + first.length;
  const plain = { value: first.value, end, figures: first.figures, exact: first.figures === Infinity, whole: first.whole, unit: first.figures === Infinity ? ZERO : fraction(1n, 10n ** BigInt(first.places)) };
  const mixed = /^ (\d{1,6}) ?\/ ?(\d{1,6})(?!\d)/.exec(text.slice(end));
  const below = mixed ? null : /^ ?\/ ?/.exec(text.slice(end));
  if (!mixed && !below) return plain;
  const second = mixed ? null : readNumber(text, end + below[0].length, byThousands);
  const divisor = mixed ? fraction(BigInt(mixed[2])) : (second?.value ?? ZERO);
  if (divisor.isZero) return stop("divided-by-zero", end, text.length - end);
  const value = mixed ? first.value.plus(fraction(BigInt(mixed[1])).over(divisor)) : first.value.over(divisor);
  const length = mixed ? mixed[0].length : below[0].length + second.length;
  return { value, end: end + length, figures: Infinity, exact: true, whole: false, unit: ZERO };
}
