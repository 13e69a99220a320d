/**
 * "Which term of mine is wrong?", for one equation.
 *
 * First every way to read it is tried for a law or for what follows from the laws, so that nothing right is ever called
 * wrong; only then for a slip.
 */
import { findFaults, judgeNothingInWire, judgeWithoutCurrent, nameNatural } from "./check-faults.mjs";
import { findLaws, rowKey, wholeRow } from "./check-laws.mjs";
import { findSum, isNumber } from "./check-sums.mjs";
import { isMeant, isUsual, listChoices, otherUnits, scaleOf } from "./check-units.mjs";
import { describeLaw } from "./check-words.mjs";
import { fraction, ONE } from "./fraction.mjs";
import { readEquation } from "./read-equation.mjs";
import { hasTwoInner } from "./read-names.mjs";
import { hasTwoReadings } from "./read-number.mjs";

/**
 * What an equation is, and where it is wrong.
 * @param {object} example what `solve --json` prints
 * @param {string} text as typed
 * @param {{flip?: string[]}} [choices] currents whose directions are turned round
 * @returns {{verdict: "junction" | "loop" | "combination" | "false" | "unreadable", origin: string | null,
 *   faults: {kind: string, part: string | null, current: string | null, origin: string, slip: string, say: object}[], say: object,
 *   doubts?: object[], at?: number, length?: number, walk?: string[], units?: object, near?: object[], isOpen?: boolean}}
 *   isOpen: it is true with "= 0", which was not typed; doubts: slips that would be true by chance; near: one or two laws that it may be meant for, where no slip is named
 */
export function checkEquation(example, text, choices = {}) {
  const laws = findLaws(example, choices);
  const usual = readAll(text, laws, laws.choices.slice(0, 1));
  const [first] = usual;
  if (first.unreadable) return refuse(first.unreadable);
  const asUsual = findLaw(usual, laws);
  const readings = asUsual ? usual : readAll(text, laws);
  const nothing = asUsual ? null : findNothing(readings, laws);
  if (nothing) return refuse({ at: 0, length: `${text}`.length, reason: nothing });
  const right = asUsual ?? findLaw(readings, laws) ?? findSum(readings, laws);
  if (right) return first.equals ? right : { ...right, isOpen: true };
  if ((isNumber(first) || isNought(first)) && !nameNatural(first, laws).length) return judgeNothingInWire(first, laws) ?? refuse({ at: 0, length: `${text}`.length, reason: "no-law" });
  if (!first.equals) return refuse({ at: `${text}`.trimEnd().length, length: 0, reason: "no-equals" });
  return readings.every(hasNoCurrent) ? judgeWithoutCurrent(first, laws) : findFaults(readings, laws);
}

const isNothing = ({ row }) => row.every((value) => !value);
const hasNoCurrent = ({ row, terms }) => terms.every(({ column }) => column === row.length - 1);

/** Why a row of nothing says nothing: it is one in all units, or one of given values as E1 = 12.6, in the page's units or SI. */
function findNothing(readings, laws) {
  if (readings.every(isNothing)) return "says-nothing";
  const given = readings.find((reading) => isNothing(reading) && isUsual(reading.choice, laws));
  return given ? (hasNoCurrent(given) ? "says-given" : "says-nothing") : null;
}

const refuse = ({ at, length, reason }) => ({ verdict: "unreadable", origin: null, faults: [], at, length, say: { key: reason, values: {} } });

/**
 * The equation as a row, in every way it can be read: numbers in groups, names that stand for two things, units.
 * @returns {object[]} what is read as usual and in the page's units comes first
 */
export function readAll(text, laws, choices = listChoices(text, laws)) {
  const numbers = hasTwoReadings(`${text}`) ? [false, true] : [false];
  const names = hasTwoInner(`${text}`, laws) ? [false, true] : [false];
  const ways = numbers.flatMap((byThousands) => names.map((plainInner) => ({ byThousands, plainInner })));
  const readings = ways.flatMap((way) => choices.map((choice) => build(readEquation(text, laws, choice, way), choice)));
  const readable = readings.filter(({ unreadable }) => !unreadable);
  return readable.length ? readable : readings;
}

/** A row in the unit V per the unit of current, whatever the units typed: only the constant changes. */
function build(reading, choice) {
  if (reading.unreadable) return reading;
  const scales = reading.row.map((_, at) => (at === reading.row.length - 1 ? choice.current : ONE));
  const { whole, times } = wholeRow(reading.row.map((value, at) => value.times(scales[at])));
  const terms = reading.terms.flatMap((term) => term.flatMap((value, column) => (value.isZero ? [] : [{ column, value: value.times(scales[column]).times(times) }])));
  return { ...reading, typed: reading.row, row: whole, terms, times, scales, choice };
}

function findLaw(readings, laws) {
  for (const reading of readings) {
    const law = laws.first.get(rowKey(reading.row));
    if (law && reading.row.some(Boolean) && !isStated(reading, law, laws) && (law.rule === "junction" || isMeant(reading, ratioOf(reading.row, law.row), laws))) return { verdict: law.rule, origin: law.origin, faults: [], ...describeLaw(law, reading, laws), ...otherUnits(reading, law, laws) };
  }
  return null;
}

/** By how much a row is larger than one that it is a multiple of. */
function ratioOf(row, other) {
  const at = other.findIndex(Boolean);
  return fraction(row[at], other[at]);
}

/** I1 = 0. */
const isNought = ({ typed, equals }) => equals && typed.at(-1).isZero && typed.filter((value) => !value.isZero).length === 1;

/** I1 = 2 is a number, though 12 − 6 I1 = 0 is a law; with one ohm it may be one. */
function isStated(reading, law, laws) {
  const { above, below } = scaleOf(reading, laws)(law);
  const at = reading.row.findIndex(Boolean);
  return isNumber(reading) && !fraction(reading.row[at] * below).size().equals(fraction(law.row[at] * above).size());
}
