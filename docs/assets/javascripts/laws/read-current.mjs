/** Reading one current as a student types it: 0.42 A, 420 mA, 0,42, −1/3 A, I1 = 0.42 A. */
import { fraction } from "./fraction.mjs";
import { readFraction, stop } from "./read-fraction.mjs";
import { readLatex } from "./read-latex.mjs";
import { fold } from "./read-number.mjs";
import { readUnit, sizeOf } from "./read-units.mjs";

const LONGEST = 60;

/**
 * @typedef {{value: Fraction, size: Fraction, unit: Fraction, figures: number, exact: boolean, whole: boolean}} TypedCurrent
 *   value [A]; size: of the unit it is in [A]; unit: one unit of the last typed figure [A], 0 for a fraction; figures: how many significant figures were
 *   typed; whole: no decimal sign was typed, so that 20 may mean exactly twenty
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 */

/**
 * Read one current.
 * @param {string} typed
 * @param {string} unit the unit meant where none is typed
 * @param {boolean} [byThousands] read 4,700 as four thousand seven hundred
 * @returns {TypedCurrent | {unreadable: {at: number, length: number, reason: string}}}
 */
export function readCurrent(typed, unit, byThousands = false) {
  if (`${typed ?? ""}`.length > LONGEST) return stop("too-long", LONGEST);
  const { text: latex, places } = readLatex(`${typed ?? ""}`);
  const read = readFolded(fold(latex), unit, byThousands);
  if (!read.unreadable) return read;
  const { at, length, reason } = read.unreadable;
  return stop(reason, places[at], (places[at + length] ?? places.at(-1)) - places[at]);
}

function readFolded(text, unit, byThousands) {
  const [before, sign] = /^ *(?:[A-Za-z][\w ()]{0,8}=)? *(?:[=~] ?)*([+-]?) */.exec(text).slice(0, 2);
  const number = readFraction(text, before.length, byThousands);
  if (number.unreadable) return number;
  const power = /^ ?[*xX]? ?10 ?\^ ?\(?([+-]?\d{1,2})\)?|^[eE]([+-]?\d{1,2})/.exec(text.slice(number.end));
  const at = number.end + (power?.[0].length ?? 0);
  const size = readSize(text, at, unit);
  if (size.unreadable) return size;
  const scale = size.times(raiseTen(power?.[1] ?? power?.[2] ?? "0"));
  const value = number.value.times(scale);
  return { size, value: sign === "-" ? value.negated() : value, unit: number.unit.times(scale), figures: number.figures, exact: number.exact, whole: number.whole };
}

function readSize(text, at, unit) {
  const rest = text.slice(at);
  if (/^ *\.? *$/.test(rest)) return sizeOf(unit);
  const start = at + /^ */.exec(rest)[0].length;
  const found = readUnit(text, start);
  const measures = found?.measures ?? (/^[kmMµu]?([Ww]atts?|W)\b/.test(rest.trimStart()) ? "power" : "");
  if (measures !== "current") return stop(measures ? `wrong-unit.${measures}` : "wrong-unit", start, text.length - start);
  return /^[ .]*$/.test(text.slice(start + found.length)) ? found.size : stop("wrong-unit", start + found.length, text.length - start - found.length);
}

function raiseTen(power) {
  const size = BigInt(Math.min(Math.abs(Number(power)), 15));
  return power.startsWith("-") ? fraction(1n, 10n ** size) : fraction(10n ** size);
}
