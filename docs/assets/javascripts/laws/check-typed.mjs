/**
 * The typed currents beside the right ones: how far a number may be off because it was rounded, and whether all that is
 * wrong with it is its sign or its prefix.
 */
import { fraction, ZERO } from "./fraction.mjs";
import { hasTwoReadings } from "./read-number.mjs";
import { readCurrent } from "./read-current.mjs";

const ONE_PERCENT = fraction(1n, 100n);
const TWO_PERCENT = fraction(2n, 100n);
const TEN_PERCENT = fraction(1n, 10n);
const HALF = fraction(1n, 2n);
const ENOUGH_FIGURES = 3;
const FIGURES_ALONE = 5;
const thousand = fraction(1000n);

/**
 * @typedef {import("./fraction.mjs").Fraction} Fraction
 * @typedef {{current: string, column: number, value: Fraction, size: Fraction, step: Fraction, figures: number, right: Fraction, state: string}} Typed
 *   size: of the unit it was typed in [A]; step: one unit of its last figure [A]; state: "right", "sign", "prefix", "close" (within 2 %), "rough" or "wrong"
 */

/**
 * Read every current that was typed.
 * @returns {{typed: Typed[], unread: {current: string, at: number, length: number, reason: string}[], missing: string[]}}
 */
export function readTyped(values, laws) {
  const texts = laws.unknowns.map((current, column) => ({ current, column, text: `${values?.[current] ?? ""}` }));
  const filled = texts.filter(({ text }) => text.trim());
  const read = filled.map((each) => ({ ...each, ...readOne(each, laws) }));
  return {
    typed: read.filter(({ unreadable }) => !unreadable),
    unread: read.filter(({ unreadable }) => unreadable).map(({ current, unreadable }) => ({ current, ...unreadable })),
    missing: texts.filter(({ text }) => !text.trim()).map(({ current }) => current),
  };
}

/** A number that can be read in two ways is read in the way that is right, if one is. */
function readOne({ text, column }, laws) {
  const right = laws.answer[column];
  const readings = [false, ...(hasTwoReadings(text) ? [true] : [])].map((byThousands) => readCurrent(text, laws.units.current, byThousands));
  const judged = readings.map((reading) => (reading.unreadable ? reading : judge(reading, right)));
  return judged.find(({ state }) => state === "right") ?? judged[0];
}

function judge(reading, right) {
  const { value, size } = reading;
  const step = stepOf(reading);
  const figures = reading.whole ? Math.max(reading.figures, ENOUGH_FIGURES) : reading.figures;
  return { value, size, right, step, figures: value.equals(right) ? Infinity : figures, state: findState(reading, right) };
}

/**
 * One unit of the last figure. A number without a decimal sign may be exact, so it counts as three figures, and as more
 * only where more of them are not zeros at its end: 20 is 20.0, and 62700 is 627 hundred.
 */
function stepOf({ value, unit, whole }) {
  if (!whole) return unit;
  if (value.isZero) return ZERO;
  const digits = value.size().over(unit).numerator.toString();
  const figures = Math.max(ENOUGH_FIGURES, digits.replace(/0+$/, "").length);
  const places = digits.length - figures;
  return places < 0 ? unit.over(fraction(10n ** BigInt(-places))) : unit.times(fraction(10n ** BigInt(places)));
}

function findState(reading, right) {
  const { value } = reading;
  if (fits(reading, value, right)) return "right";
  if (fits(reading, value.negated(), right)) return "sign";
  const turns = [value, value.negated()].flatMap((each) => [each.times(thousand), each.over(thousand)]);
  if (turns.some((each) => isWithin(each, right, ONE_PERCENT))) return "prefix";
  if (isWithin(value, right, TWO_PERCENT)) return "close";
  return reading.figures < 2 && !reading.exact && !value.isZero && isRounded(reading, value, right) ? "rough" : "wrong";
}

/** Right within one percent or as printed digits deserve: one unit of the last figure, half a unit below three figures. */
function fits(reading, value, right) {
  if (isWithin(value, right, ONE_PERCENT)) return true;
  if (reading.exact || (value.isZero && reading.whole)) return false;
  const off = value.minus(right).size();
  if (reading.figures >= ENOUGH_FIGURES) return off.compare(reading.unit) <= 0;
  const rounded = off.compare(reading.unit.times(HALF)) <= 0;
  return rounded && (reading.figures > 1 || value.isZero || isWithin(value, right, TEN_PERCENT));
}

const isRounded = ({ unit }, value, right) => value.minus(right).size().compare(unit.times(HALF)) <= 0;
const isWithin = (value, right, share) => value.minus(right).size().compare(right.size().times(share)) <= 0;

/** How far off the worst of them is, as a share of the right value. */
export function worstShare(typed) {
  const shares = typed.filter(({ right }) => !right.isZero).map(({ value, right }) => value.minus(right).size().over(right.size()));
  return shares.reduce((worst, share) => (share.compare(worst) > 0 ? share : worst), ZERO);
}

/**
 * Whether the digits are enough to name a slip by: three figures each. One number alone meets some slip by chance one time
 * in a hundred, so it needs five.
 */
export const mayName = (typed) => typed.every(({ figures }) => figures >= (typed.length > 1 ? ENOUGH_FIGURES : FIGURES_ALONE));
