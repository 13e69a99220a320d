/**
 * "Which term of mine is wrong?", for one equation.
 *
 * First every way to read it is tried for a law or for what follows from the laws, so that nothing right is ever called
 * wrong; only then for a slip.
 */
import { findLaws, followFromPage, rowKey, valueOf, wholeRow } from "./check-laws.mjs";
import { findMatches, findTerm, hasTerm, isSpared, isTerm, nameSlips } from "./check-nearest.mjs";
import { describeFault, describeLaw, describeNear, describeSum, MOST_ROWS } from "./check-words.mjs";
import { fraction, ONE } from "./fraction.mjs";
import { readEquation } from "./read-equation.mjs";
import { hasTwoInner } from "./read-names.mjs";
import { hasTwoReadings } from "./read-number.mjs";
import { kindOfSlip } from "./slip-words.mjs";

const MOST_FAULTS = 4;
const MOST_NEAR = 2;

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
  if (isNumber(first) && !nameNatural(first, laws).length) return refuse({ at: 0, length: `${text}`.length, reason: "no-law" });
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

/** The choices of units in which a text may be meant: the page's own first, millivolts only where they are typed. */
const listChoices = (text, { choices }) => choices.filter(({ symbols }, at) => !at || symbols.voltage === "V" || `${text}`.includes(symbols.voltage));

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

/** I1 = 2: a current by itself, and its value. */
function isNumber({ typed, terms, equals }) {
  const columns = new Set(terms.map(({ column }) => column));
  const [factor, ...more] = typed.slice(0, -1).filter((value) => !value.isZero);
  return Boolean(equals && factor?.size().equals(ONE)) && !more.length && terms.length === 2 && columns.size === 2;
}

/** I1 = 2 is a number, though 12 − 6 I1 = 0 is a law; with one ohm it may be one. */
function isStated(reading, law, laws) {
  const { above, below } = scaleOf(reading, laws)(law);
  const at = reading.row.findIndex(Boolean);
  return isNumber(reading) && !fraction(reading.row[at] * below).size().equals(fraction(law.row[at] * above).size());
}

/**
 * Whether a true row is meant in its choice of units. In others than the page's a value is what stands in the figure, not a
 * thousand times that: else a slip would come out true. The factor is by how much the row is larger than a loop's.
 */
function isMeant({ choice, times }, factor, laws) {
  const larger = factor.times(choice.resistance).times(fraction(laws.scale)).over(times).size();
  return choice === laws.choices[0] || ![1000n, 1000000n].some((power) => larger.equals(fraction(power)) || larger.equals(fraction(1n, power)));
}

/** By how much a row is larger than one that it is a multiple of. */
function ratioOf(row, other) {
  const at = other.findIndex(Boolean);
  return fraction(row[at], other[at]);
}

function otherUnits({ choice, typed }, law, laws) {
  return law.rule === "loop" && choice !== laws.choices[0] && !typed.at(-1).isZero ? { units: choice.symbols } : {};
}

/** True, and so a sum of laws: for the row is at right angles to the answer, as the laws are, and they are as many as can be. */
function findSum(readings, laws) {
  const sums = readings.filter(({ row }) => row.some(Boolean) && valueOf(row, laws.answer).isZero).map((each) => ({ ...each, ...makeSum(each, laws) }));
  // In units that are neither the page's nor SI a slip can come out true by chance.
  const isLike = (reading) => reading.shares.every(({ law, factor }) => law.rule === "junction" || isMeant(reading, factor, laws));
  const reading = sums.find((each) => isLike(each) && (isUsual(each.choice, laws) || (each.natural && isPutTogether(each.shares, laws))));
  if (!reading) return null;
  const { shares, natural } = reading;
  const isLong = shares.length > MOST_ROWS && isLawButForZeros(reading, laws);
  const doubts = natural && !isLong ? [] : onlyTrueHere(reading, laws);
  const onlyHere = isLong || doubts.length > 0;
  return { verdict: "combination", faults: [], ...describeSum(shares, reading, laws, onlyHere), ...(onlyHere ? { doubts } : {}) };
}

/** How a row is made of the page's equations. Putting one into another takes whole loops, and junctions any number of times. */
function makeSum(reading, laws) {
  const shares = followFromPage(laws, reading.row);
  const loops = shares.filter(({ law }) => law.rule === "loop").map(({ factor }) => factor.size());
  return { shares, natural: loops.every((factor) => factor.equals(loops[0])) };
}

/** Whether units are the page's or V, Ω and A. */
const isUsual = (choice, laws) => choice === laws.choices[0] || choice.current.equals(ONE);

/** Whether junctions are put in with factors that a substitution has: a resistance of one part or of a whole branch. */
function isPutTogether(shares, laws) {
  const unit = shares.find(({ law }) => law.rule === "loop")?.factor;
  if (!unit) return true;
  const sums = laws.unknowns.map((_, column) => laws.live.filter((part) => part.column === column).reduce((sum, { drop }) => sum + drop, 0n));
  const factors = new Set([...sums, ...laws.live.map(({ drop }) => drop)].map(String));
  return shares.every(({ law, factor }) => law.rule === "loop" || factors.has(factor.over(unit).size().toString()));
}

/** The slips that fit an equation as large as it was typed. */
const nameNatural = (reading, laws) => findMatches(reading, scaleOf(reading, laws), laws).filter(({ natural }) => natural).flatMap((match) => nameSlips(match, laws));

/** A slip in a term that happens to be zero: true with these values, and no law all the same. */
function onlyTrueHere(reading, laws) {
  return tell(nameNatural(reading, laws).filter(({ slip }) => /sign|missing|extra/.test(slip)), reading, laws);
}

/** Whether a row is that of a law in all but the terms of currents that happen to be zero. */
function isLawButForZeros({ row }, { laws, answer }) {
  const counts = row.map((_, column) => !answer[column]?.isZero);
  return laws.some((law) => {
    const pivot = law.row.findIndex((value, column) => value && counts[column]);
    return pivot >= 0 && row[pivot] && row.every((value, column) => !counts[column] || value * law.row[pivot] === law.row[column] * row[pivot]);
  });
}

function findFaults(readings, laws) {
  const known = readings.filter((reading, at) => readings.findIndex((other) => rowKey(other.row) === rowKey(reading.row)) === at);
  const tries = known.map((reading) => ({ reading, matches: findMatches(reading, scaleOf(reading, laws), laws) }));
  const powers = findPowers(known, laws);
  if (powers && isAllButEmf(powers, laws)) return wrong(tell([powers.slip], powers.reading, laws));
  for (const { reading, matches } of tries) {
    const slips = matches.flatMap((match) => nameSlips(match, laws)).filter((way) => !isSpared(way, reading));
    if (slips.length) return wrong(tell(chooseSingle(chooseApart(slips, reading), reading), reading, laws));
  }
  if (powers) return wrong(tell([powers.slip], powers.reading, laws));
  const [{ reading, matches }] = tries;
  const values = matches.filter(({ changes, natural, agreeing }) => changes.size === 1 && agreeing > (natural ? 0 : 1)).flatMap((match) => nameValue(match, reading, laws));
  return values.length ? wrong(tell(values, reading, laws)) : pointTo(reading, matches, laws);
}

/** A term with another value, or counted twice, is told where it was typed so; that a sum allows it explains less than other slips do. */
function chooseApart(slips, reading) {
  const apart = slips.filter((way) => {
    const { column, written } = findTerm(way);
    return !["twice", "other-value"].includes(way.slip) || hasTerm(reading, column, written, way.match.factor);
  });
  return apart.length ? apart : slips;
}

/** Single terms before all terms of a part or a branch; of these those typed last, for a walk goes on as it began. */
function chooseSingle(slips, { terms }) {
  const isWhole = ({ slip }) => slip.endsWith("-turned");
  if (!slips.every(isWhole)) return slips.filter((way) => !isWhole(way));
  const place = (way) => terms.map(({ column }) => column).lastIndexOf(way.column);
  const last = Math.max(...slips.map(place));
  return slips.filter((way) => place(way) === last);
}

const wrong = (faults) => ({ verdict: "false", origin: faults[0].origin, faults, say: faults[0].say, walk: faults[0].walk });

/**
 * Not true, and without a current. One number is a multiple of any other, so it is laid beside the laws as large as it was
 * typed, and only what is left out of a loop can explain it.
 */
function judgeWithoutCurrent(reading, laws) {
  const left = nameNatural(reading, laws).filter(({ slip }) => slip.startsWith("missing"));
  if (left.length) return wrong(tell(left, reading, laws));
  const rise = reading.typed.at(-1).times(reading.choice.voltage).times(fraction(laws.scale)).size();
  const near = rise.isZero ? [] : laws.laws.filter(({ rule, row }) => rule === "loop" && fraction(row.at(-1)).size().equals(rise));
  return point("only-emfs", near, near.length ? "only-emfs.several" : "no-current");
}

/** By how much a row that was typed in a choice of units is larger than a law. */
const scaleOf = ({ times, choice }, laws) => (law) => {
  const factor = law.rule === "junction" ? times : times.over(choice.resistance).over(fraction(laws.scale));
  return { above: factor.numerator, below: factor.denominator };
};

/** A loop whose resistances all have the wrong prefix, beside its emfs. */
function findPowers(readings, laws) {
  for (const reading of readings) {
    for (const power of [1000n, 1000000n]) {
      const row = reading.row.map((value, at) => (at === reading.row.length - 1 ? value * power : value));
      const law = row.at(-1) && laws.first.get(rowKey(row));
      if (law) return { reading, slip: { slip: "prefix-of-all", law, part: null, column: null, match: { law, natural: true, agreeing: 1, changes: new Map(), factor: { above: 1n, below: 1n } } } };
    }
  }
  return null;
}

/** Whether several resistances have the wrong prefix beside an emf as it stands in the figure: then the emf is not to blame. */
function isAllButEmf({ reading: { typed, choice }, slip: { law } }, laws) {
  const emf = fraction(law.row.at(-1), laws.scale);
  return law.terms.filter(({ nature, value }) => nature === "resistance" && value).length > 1 && choice === laws.choices[0] && typed.at(-1).times(choice.voltage).size().equals(emf.size());
}

/** One number that differs from a law by nothing known, as each part that it may belong to. */
function nameValue(match, reading, laws) {
  const [column] = match.changes.keys();
  const { law } = match;
  const inRow = law.terms.filter((term) => term.column === column && term.value);
  const foreign = law.rule === "loop" ? laws.live.filter((part) => part.column === column && part.drop) : [];
  const parts = inRow.length ? leftOver(inRow, reading, match) : foreign.length === 1 ? [foreign[0].name] : [null];
  const slip = inRow.length ? "wrong-value" : "extra-number";
  return parts.map((part) => ({ slip, law, match, part, column: column < laws.unknowns.length ? column : null }));
}

/** The parts of one column whose terms are not among those typed; all of them where the student added them up. */
function leftOver(inRow, reading, match) {
  const left = inRow.filter(({ column, value }) => !reading.terms.some((term) => term.column === column && isTerm(term.value, value, match.factor)));
  const spare = reading.terms.filter(({ column }) => column === inRow[0].column).length;
  return (left.length && spare > 1 ? left : inRow).map(({ part }) => part);
}

/** Nothing is near enough to be named; perhaps one law is still nearer than all others. */
function pointTo(reading, matches, laws) {
  const close = matches.filter(({ natural, agreeing }) => natural && agreeing > 1);
  const most = Math.max(...close.map(({ agreeing }) => agreeing));
  const near = onlyOnce(close.flatMap(({ law, agreeing }) => (agreeing === most ? [law] : [])));
  if (near.length && near.length <= MOST_NEAR) return point("two-terms-off", near);
  return point("same-currents", onlyOnce(laws.laws.filter((law) => law.row.every((value, at) => !value === !reading.row[at]))));
}

/** Two junctions may have one equation, and one law may be near in both senses. */
const onlyOnce = (laws) => laws.filter(({ row }, at) => laws.findIndex((other) => rowKey(other.row) === rowKey(row)) === at);

/** The laws that an equation may be meant for, where they are one or two. */
function point(key, near, otherwise = "unrelated") {
  const told = near.length > MOST_NEAR ? [] : near;
  const [law] = told.length === 1 ? told : [];
  return { verdict: "false", origin: law?.origin ?? null, faults: [], say: describeNear(key, told, otherwise), near: told, ...(law?.walk.length ? { walk: law.walk } : {}) };
}

/** The alternatives, nearest first: the usual factor before others, the order of the rules, the page's laws before others. */
function tell(slips, reading, laws) {
  const natural = slips.filter(({ match }) => match.natural);
  const chosen = natural.length ? natural : slips;
  const order = [...chosen].sort((one, other) => rank(one) - rank(other) || other.match.agreeing - one.match.agreeing);
  // Of two junctions with one equation only the first is told.
  const key = ({ slip, part, column, law }) => [kindOfSlip(slip), part, column, law.rule === "loop" ? law.origin : rowKey(law.row)].join();
  const told = order.filter((slip, at) => order.findIndex((other) => key(other) === key(slip)) === at);
  return told.slice(0, MOST_FAULTS).map((slip) => describeFault(slip, reading, laws));
}

const ranks = ["sign", "missing", "prefix", "value", "extra", "twice", "wrong-current"];
const rank = ({ slip }) => ranks.findIndex((name) => slip.includes(name));
