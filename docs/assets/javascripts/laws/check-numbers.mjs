/**
 * "Are my numbers right, and if not, which law do they break?"
 *
 * A slip is named only where it gives exactly these numbers and at most one other does; a false accusation is worse than
 * silence.
 */
import { holds, holdsClosely, scaleNumbers, sumOf } from "./check-fit.mjs";
import { findLaws, valueOf } from "./check-laws.mjs";
import { explain, listBareWires } from "./check-slips.mjs";
import { mayName, readTyped, worstShare } from "./check-typed.mjs";
import { describeSlip } from "./check-words.mjs";
import { checkEquation, readAll } from "./check-equation.mjs";
import { rank } from "./elimination.mjs";
import { fraction, ZERO } from "./fraction.mjs";
import { rounded, withUnit } from "./numeral.mjs";
import { sizeOf, symbolOf } from "./read-units.mjs";
import { kindOfSlip } from "./slip-words.mjs";

const MOST_NAMED = 2;
const thousand = fraction(1000n);

/**
 * What can be said of typed currents.
 * @param {object} example what `solve --json` prints
 * @param {Record<string, string>} values as typed, by current; what is empty is left out
 * @param {{flip?: string[], equations?: string[]}} [choices] equations: those the student typed, if any
 * @returns {{verdict: "right" | "wrong" | "unreadable", broken: {rule: string, origin: string, say: object}[],
 *   slips: {kind: string, part: string | null, current: string | null, origin: string | null, slip: string, say: object, also?: object[]}[],
 *   say: object, numbers: {current: string, state: string}[], missing: string[], unread: object[], candidates: object[],
 *   close: boolean, own?: "algebra" | "equations", alone?: {current: string, others: string[]}}} slips: at most two, alternatives; also: other wordings of the
 *   same effect; candidates: every slip that gives these numbers, whether it may be named or not; alone: the only
 *   number that keeps the laws from holding
 */
export function checkNumbers(example, values, choices = {}) {
  const laws = findLaws(example, choices);
  const { typed, unread, missing } = readTyped(values, laws);
  const numbers = typed.map(({ current, state }) => ({ current, state }));
  const base = { broken: [], slips: [], numbers, missing, unread, candidates: [], close: false };
  if (unread.length) return { ...base, verdict: "unreadable", say: { key: unread[0].reason, values: { current: unread[0].current, ...wanted(laws) } } };
  if (!typed.length) return { ...base, verdict: "unreadable", say: { key: "no-number", values: wanted(laws) } };
  if (typed.every(({ state }) => state === "right")) return { ...base, verdict: "right", say: { key: missing.length ? "right-so-far" : sayRight(typed, laws), values: {} } };
  return { ...base, verdict: "wrong", ...judge(typed, missing, laws), ...askOwn(typed, missing, laws, example, choices) };
}

/** What may be typed on this page, for instance. */
const wanted = ({ units: { current: unit } }) => ({ unit, example: withUnit({ A: "0.42", mA: "4.2" }[unit] ?? "42", unit) });

/** Numbers that were rounded too early are right, and the laws hold less well than for numbers rounded once, by half a unit at most. */
function sayRight(typed, laws) {
  const scaled = scaleNumbers(typed);
  return laws.laws.every(({ row }) => holdsClosely(row, scaled)) ? "right" : "right-nearly";
}

function judge(typed, missing, laws) {
  const scaled = missing.length ? spread(typed, laws) : scaleNumbers(typed);
  const broken = findBroken(scaled, laws, typed);
  const groups = missing.length ? [] : explain(typed, scaled, laws);
  const wordings = groups.map((group) => describeGroup(group, laws));
  const candidates = wordings.flat();
  const named = mayName(typed) && groups.length <= MOST_NAMED ? shorten(wordings) : [];
  const simple = explainSimply(typed, laws);
  if (simple) return { broken, candidates: [...candidates, simple], slips: named.length ? named : [simple], say: simple.say };
  const wire = findEmptyWire(typed, laws);
  if (wire) return { broken, candidates: [...candidates, wire], slips: [wire], say: wire.say };
  const close = isClose(typed);
  if (close) return { broken, candidates, close, say: sayClose(typed) };
  if (missing.length) return { broken, say: broken[0]?.say ?? sayOne(typed) };
  return { broken, candidates, slips: named, say: sayOf(named, broken, typed), ...(named.length ? {} : findAlone(typed, laws)) };
}

/** The wordings of one effect, one for each kind of slip, the likeliest first. */
function describeGroup(group, laws) {
  const order = [...group].sort((one, other) => likely(one) - likely(other));
  const kinds = [...new Set(order.map(({ slip }) => kindOfSlip(slip)))];
  return kinds.map((kind) => describeSlip(order.filter(({ slip }) => kindOfSlip(slip) === kind), laws));
}

const LIKELY = ["sign", "missing", "other-value", "extra", "swapped", "prefix"];
const likely = ({ slip }) => (LIKELY.findIndex((name) => slip.includes(name)) + LIKELY.length + 1) % (LIKELY.length + 1);

/** No more than two names in all; other wordings of the same effect go along with the first. */
function shorten(wordings) {
  const most = wordings.length > 1 ? 1 : MOST_NAMED;
  return wordings.flatMap((wording) => {
    const also = wording.slice(most);
    return wording.slice(0, most).map((fault) => (also.length ? { ...fault, also } : fault));
  });
}

const isClose = (typed) => typed.every(({ state }) => state === "right" || state === "close");

/** Only signs differ, or only a power of a thousand: then that is said, whatever else would give it. */
function explainSimply(typed, laws) {
  const off = typed.filter(({ state }) => state !== "right");
  for (const [state, slip] of [["sign", "current-sign"], ["prefix", "current-prefix"]]) {
    if (!off.every((each) => each.state === state)) continue;
    const currents = off.map(({ current }) => current);
    const fault = describeSlip([{ slip, part: null, column: off[0].column, law: null }], laws);
    const { key, ...values } = state === "prefix" ? describePrefix(off) : { key: off.length > 1 ? `${slip}.several` : slip };
    return { ...fault, say: { key, values: { ...fault.say.values, ...values, currents: currents.join(", ") } } };
  }
  return null;
}

/** The one number that is wrong is a zero in a bare wire: no voltage taken for no current. */
function findEmptyWire(typed, laws) {
  const [off, ...more] = typed.filter(({ state }) => state !== "right");
  const wire = off?.value.isZero && !more.length && listBareWires(laws).find(({ column }) => column === off.column);
  return wire ? describeSlip([{ slip: "nothing-in-wire", part: wire.name, column: wire.column, law: null }], laws) : null;
}

/** Which way numbers are off by a thousand, and in which unit they would be right; that is said where it is so for all of them. */
function describePrefix(off) {
  const ways = off.map(({ value, right, size }) => {
    const way = value.size().compare(right.size()) > 0 ? "large" : "small";
    const meant = way === "large" ? size.over(thousand) : size.times(thousand);
    return { key: `current-prefix.${value.isNegative === right.isNegative ? way : "turned"}`, unit: symbolOf(meant), typed: symbolOf(size) };
  });
  const [first] = ways;
  return first.unit && ways.every((way) => way.key === first.key && way.unit === first.unit) ? first : { key: "current-prefix.mixed" };
}

function sayClose(typed) {
  const share = worstShare(typed);
  const { current } = typed.find((each) => worstShare([each]).equals(share));
  return { key: "close", values: { current, percent: rounded(share.times(fraction(100n)), 2) } };
}

function sayOne(typed) {
  const off = typed.find(({ state }) => state !== "right");
  return { key: off.state === "rough" ? "rough" : "single-wrong", values: { current: off.current } };
}

function sayOf(slips, broken, typed) {
  if (slips.length === 1) return { key: "one-slip", values: {}, when: [slips[0].say] };
  if (slips.length) return { key: "two-slips", values: {}, when: slips.map(({ say }) => say) };
  const off = typed.filter(({ state }) => !["right", "close"].includes(state));
  return off.every(({ state }) => state === "rough") ? { key: "rough", values: {} } : (broken[0]?.say ?? { key: "no-slip", values: {} });
}

/** The only number that is not right, where every law would hold with another in its place. */
function findAlone(typed, laws) {
  const [off, ...more] = typed.filter(({ state }) => state !== "right");
  const others = typed.filter((each) => each !== off).map(({ current }) => current);
  if (more.length || !others.length || off.state !== "wrong") return {};
  const mended = scaleNumbers(typed.map((each) => (each === off ? { value: off.right, step: ZERO } : each)));
  if (!laws.laws.every(({ row }) => holds(row, mended))) return {};
  return { alone: { current: off.current, others } };
}

/** The laws that the numbers do not fit: junctions first, then the shortest loops. */
function findBroken(scaled, laws, typed) {
  const has = (column) => column === laws.unknowns.length || typed.some((each) => each.column === column);
  const known = laws.laws.filter(({ row }) => row.every((value, at) => !value || has(at)));
  const far = known.filter(({ row }) => !holds(row, scaled));
  // Where a number is plainly wrong, no more is forgiven than rounding it once.
  const isWrong = typed.some(({ state }) => state === "wrong");
  const broken = far.length || !isWrong ? far : known.filter(({ row }) => !holdsClosely(row, scaled));
  const order = (law) => (law.rule === "junction" ? 0 : law.walk.length + 1);
  return broken.sort((one, other) => order(one) - order(other)).map((law) => describeBroken(law, scaled, laws));
}

function describeBroken(law, scaled, laws) {
  const sum = fraction(sumOf(law.row, scaled), scaled.numbers.at(-1));
  const unit = law.rule === "junction" ? laws.units.current : laws.units.voltage;
  const left = (law.rule === "junction" ? sum : sum.over(fraction(laws.scale))).over(sizeOf(unit));
  const { numerator, denominator } = left.size();
  // A thousand too many is told to the last one: a student subtracts.
  const amount = withUnit(rounded(left.size(), Math.max(3, `${numerator / denominator}`.length)), unit);
  const values = { origin: law.origin, where: law.named || law.rule === "junction" ? law.origin : law.walk.join(", "), amount };
  const key = law.rule === "loop" ? "broken-loop" : left.isNegative ? "broken-junction.leaves" : "broken-junction.enters";
  return { rule: law.rule, origin: law.origin, ...(law.walk.length ? { walk: law.walk } : {}), say: { key, values } };
}

/** Typed numbers in their columns, with nothing where nothing was typed. */
function spread(typed, laws) {
  const { numbers, steps } = scaleNumbers(typed);
  const at = (list, column) => list[typed.findIndex((each) => each.column === column)] ?? 0n;
  const columns = laws.unknowns.map((_, column) => column);
  return { numbers: [...columns.map((column) => at(numbers, column)), numbers.at(-1)], steps: [...columns.map((column) => at(steps, column)), 0n] };
}

/**
 * Where the student's equations are known: whether there are enough true ones, so that the slip is in solving them, or
 * whether the numbers are the solution of equations that are not all true.
 */
function askOwn(typed, missing, laws, example, { flip, equations = [] }) {
  const texts = (Array.isArray(equations) ? equations : []).filter((text) => `${text}`.trim());
  if (missing.length || texts.length < laws.unknowns.length) return {};
  const judged = texts.map((text) => ({ verdict: checkEquation(example, text, { flip }).verdict, readings: readAll(text, laws) }));
  if (judged.some(({ verdict }) => verdict === "unreadable")) return {};
  const isTrue = ({ row }) => valueOf(row, laws.answer).isZero;
  const rows = judged.map(({ readings }) => (readings.find(isTrue) ?? readings[0]).row);
  const isEnough = (wanted) => rank(wanted.map((row) => row.slice(0, -1).map((value) => fraction(value)))) === laws.unknowns.length;
  if (isEnough(rows.filter((_, at) => judged[at].verdict !== "false"))) return { own: "algebra" };
  const scaled = scaleNumbers(typed);
  return isEnough(rows) && rows.every((row) => holdsClosely(row, scaled)) ? { own: "equations" } : {};
}
