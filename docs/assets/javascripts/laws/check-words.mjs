/** What is said of an equation: keys of ../verdicts.mjs and ../slips.mjs, and the values for their places. No sentence is written here. */
import { findTerm, hasTerm } from "./check-nearest.mjs";
import { fraction, ONE } from "./fraction.mjs";
import { MINUS, plain, SPACE } from "./numeral.mjs";
import { kindOfSlip, sentence } from "./slip-words.mjs";

/** A sum of more equations than these explains nothing. */
export const MOST_ROWS = 3;

/**
 * A law that was recognised, in the sense in which the student wrote it.
 * @returns {{walk?: string[], say: object}}
 */
export function describeLaw(law, reading, laws) {
  if (law.rule === "junction") return { say: { key: "is-junction", values: { origin: law.origin, where: whereIs(law, false) } } };
  const turned = isTurned(reading, reading.row.find(Boolean) < 0n !== law.row.find(Boolean) < 0n);
  return { walk: walkOf(law, turned), say: { key: law.named ? "is-loop" : "is-other-loop", values: { origin: law.origin, where: whereIs(law, turned), walk: walkOf(law, turned).join(", ") } } };
}

/**
 * A true combination, and how it is made of the equations of the page.
 */
export function describeSum(shares, reading, laws) {
  const loops = shares.filter(({ law }) => law.rule === "loop");
  const inUnits = ({ law, factor }) => (law.rule === "loop" ? factor.times(fraction(laws.scale)).times(laws.choices[0].resistance) : factor);
  const unit = inUnits(loops[0] ?? shares[0]).size();
  const sum = shares.map((share) => ({ origin: share.law.origin, factor: inUnits(share).over(unit) }));
  const plainSum = sum.every(({ factor }) => factor.size().equals(ONE));
  const alone = reading.row.slice(0, -1).filter(Boolean).length === 1;
  const key = alone ? "is-answer" : plainSum && sum.length <= MOST_ROWS ? "is-sum" : "is-long-sum";
  const written = writeSum(sum);
  const zeros = laws.unknowns.filter((_, column) => laws.answer[column].isZero);
  const typed = zeros.filter((current) => reading.row[laws.unknowns.indexOf(current)]);
  return { origin: plainSum ? written : null, say: { key, values: { sum: written, zero: (typed.length ? typed : zeros).join(", ") } } };
}

function writeSum(sum) {
  const terms = sum.map(({ origin, factor }) => `${factor.isNegative ? MINUS : "+"} ${factor.size().equals(ONE) ? "" : `${plain(factor.size())} × `}${origin}`);
  return terms.join(" ").replace(/^\+ /, "");
}

/** A loop with a current put in from a junction. */
export const describePutIn = ({ law, junction, column, right, written }, laws) => ({
  loop: whereIs(law, false), where: junction.origin, current: laws.unknowns[column], right, written,
});

/** One law or two that an untrue equation is near, with the parts whose terms have a current. */
export function describeNear(key, laws, otherwise) {
  const [first, second] = laws.map((law) => ({ where: whereIs(law, false), law: `${law.rule} ${whereIs(law, false)}`, parts: law.terms.flatMap(({ part, nature, value }) => (nature === "resistance" && value ? [part] : [])).join(", ") }));
  if (!first) return { key: otherwise, values: {} };
  return second ? { key: `${key}.both`, values: { ...first, orWhere: second.where, orLaw: second.law, orParts: second.parts } } : { key, values: { origin: laws[0].origin, ...first } };
}

/** Slips whose sentences say what enters and what leaves, which no way of writing the equation turns round. */
const ENTERS = new Set(["junction-sign", "missing-current"]);

/** One fault: what the contract promises, and what is said of it. */
export function describeFault(way, reading, laws) {
  const { slip, law, match } = way;
  const turned = !ENTERS.has(slip) && isTurned(reading, match.factor.above < 0n !== match.factor.below < 0n);
  const current = way.column === null ? null : laws.unknowns[way.column];
  // The resistance of a battery is told apart from the battery.
  const isInner = current && !/internal|battery|branch/.test(slip);
  const nameOf = (name) => (isInner && laws.topology.part[name]?.kind === "battery" ? sentence({ key: "inner", values: { part: name } }) : name);
  const part = nameOf(way.part);
  const values = { part, parts: (way.parts?.map(nameOf) ?? [part ?? current]).join(", "), current, ownCurrent: ownCurrent(way.part, laws), origin: law.origin, where: whereIs(law, turned), ...termValues(way, reading, laws, turned) };
  return {
    kind: kindOfSlip(slip), part: way.part, current, origin: law.origin, slip, ...(way.parts ? { parts: way.parts } : {}),
    ...(law.walk.length ? { walk: walkOf(law, turned) } : {}),
    say: { key: sentenceOf(way, turned), values },
  };
}

const ownCurrent = (part, laws) => (part ? laws.topology.branchOf.get(part).current : null);

/** Which of a slip's sentences fits: some depend on the sense of the walk. */
function sentenceOf({ slip, law, part, column }, turned) {
  if (!["resistor-sign", "emf-sign", "junction-sign", "battery-turned"].includes(slip)) return slip;
  const term = law.terms.find((each) => (slip === "junction-sign" ? each.column === column : each.part === part && each.nature === (slip === "resistor-sign" ? "resistance" : "emf")));
  // A single emf and all resistor terms have each the wrong sign beside the other: nobody can tell which way was walked.
  if (slip === "emf-sign" && law.terms.filter(({ nature, value }) => nature === "emf" && value).length === 1) return "emf-sign.alone";
  return `${slip}.${term.forward !== turned ? "along" : "against"}`;
}

/**
 * Whether the student walks against the walk of the law. Currents on one side and the emfs on the other are drops on one
 * side and rises on the other, whichever side is which.
 */
function isTurned({ left, right }, negative) {
  const drops = hasCurrents(left) && left.at(-1).isZero && !right.at(-1).isZero && !hasCurrents(right);
  return negative !== drops;
}

const hasCurrents = (side) => side.slice(0, -1).some((value) => !value.isZero);

const walkOf = (law, turned) => (turned ? [...law.walk].reverse() : law.walk);
const whereIs = (law, turned) => (law.rule === "junction" || law.named ? law.origin : walkOf(law, turned).join(", "));

/**
 * The term of the slip as it is and as it should be, with all terms on the side of the rises. Nothing is told as written
 * that was not: where a part's term was added up with others, that sum is told, and what it should be.
 */
function termValues(way, reading, laws, turned) {
  const { slip, match, law } = way;
  const { column, own, written } = findTerm(way);
  if (column === undefined) return {};
  const { left, right, typed } = reading;
  const size = unitOf(reading, column, match);
  // The number without its current has the sign of its term, wherever it stands.
  if (slip === "missing-factor") return { right: writeFactor(own.times(size).size(), laws.unknowns[column]), written: plain(own.times(size).size()) };
  const rises = match.factor.above < 0n !== match.factor.below < 0n !== turned ? ONE.negated() : ONE;
  const side = standsRight(reading, column, own.times(size).isNegative) ? ONE.negated() : ONE;
  // What does not belong there is told as it stands.
  const seen = slip.startsWith("extra") ? side : rises;
  const words = (value) => writeTerm(value, laws.unknowns[column] ?? "");
  const rightWords = (value) => words(value.times(size).times(rises));
  const apart = written.isZero || hasTerm(reading, column, written, match.factor);
  const whole = fraction(law.row[column]);
  const isOnOneSide = left[column].isZero || right[column].isZero;
  const asTyped = (value) => words(value.times(size).times(side));
  const there = apart ? asTyped(written) : words(typed[column].times(side));
  // Where the sign is right, no rule of signs has to be told: both are told as they stand in the equation.
  if (isOnOneSide && apart && !written.isZero && own.isNegative === written.isNegative) return { moved: false, right: asTyped(own), written: there };
  return {
    moved: !seen.equals(side) || !isOnOneSide || (written.isZero && hasCurrents(left) && hasCurrents(right)),
    ...(isOnOneSide && (apart || own.equals(whole)) ? { thereRight: asTyped(own), there: written.isZero ? "" : there, isRight: side !== ONE } : {}),
    right: apart || own.equals(whole) ? rightWords(own) : sentence({ key: "in-all", values: { right: rightWords(own), whole: rightWords(whole) } }),
    written: words((apart ? written.times(size) : typed[column]).times(seen)),
  };
}

/**
 * Whether a column's terms stand on the right; a current's that was left out would stand with the other currents, and where
 * these are on both sides, where it counts plus.
 */
function standsRight({ left, right }, column, isNegative) {
  if (!left[column].isZero) return false;
  if (!right[column].isZero) return true;
  if (column === left.length - 1) return false;
  return hasCurrents(right) && (!hasCurrents(left) || isNegative);
}

/** By how much a number of a law's row is larger in the row as it was typed. */
function unitOf({ times, scales }, column, { factor }) {
  return fraction(factor.above, factor.below).over(times).over(scales[column]);
}

/** A term with its sign before it: + 8 I3, − I2, + 12; nothing at all is 0. */
export function writeTerm(value, name) {
  if (value.isZero) return "0";
  const size = value.size();
  return `${value.isNegative ? MINUS : "+"}${SPACE}${writeFactor(size, name)}`;
}

const writeFactor = (size, name) => (name && size.equals(ONE) ? "" : plain(size) + (name ? SPACE : "")) + name;

/** A slip that explains numbers; the first of its group, with the others' places. */
export function describeSlip(group, laws) {
  const [{ slip, part, parts, column, law }] = group;
  const origins = [...new Set(group.flatMap((way) => (way.law ? [way.law.origin] : [])))];
  const current = column === null ? null : laws.unknowns[column];
  const values = { part, parts: (parts ?? [part]).join(", "), current, origin: origins[0] ?? null, where: origins.join(" or ") };
  const fault = { kind: kindOfSlip(slip), part, current, origin: law?.origin ?? null, origins, slip };
  return { ...fault, ...(parts ? { parts } : {}), say: { key: slip, values } };
}
