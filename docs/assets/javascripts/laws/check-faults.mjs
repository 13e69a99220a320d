/** Where an equation that is not true is wrong: the slip that it may come from, else the law that it is near. */
import { rowKey } from "./check-laws.mjs";
import { findMatches, findTerm, hasTerm, isSpared, isTerm, nameSlips } from "./check-nearest.mjs";
import { findPutIn } from "./check-put-in.mjs";
import { listBareWires } from "./check-slips.mjs";
import { findPowers, isAllButEmf, scaleOf } from "./check-units.mjs";
import { describeFault, describeNear, describePutIn, describeSlip } from "./check-words.mjs";
import { fraction } from "./fraction.mjs";
import { kindOfSlip } from "./slip-words.mjs";

const MOST_FAULTS = 4;
const MOST_NEAR = 2;

/** The slips that fit an equation as large as it was typed. */
export const nameNatural = (reading, laws) => findMatches(reading, scaleOf(reading, laws), laws).filter(({ natural }) => natural).flatMap((match) => nameSlips(match, laws));

/** The slips that explain an equation, else a hint at the law it is near. */
export function findFaults(readings, laws) {
  const known = readings.filter((reading, at) => readings.findIndex((other) => rowKey(other.row) === rowKey(reading.row)) === at);
  const tries = known.map((reading) => ({ reading, matches: findMatches(reading, scaleOf(reading, laws), laws) }));
  const powers = findPowers(known, laws);
  if (powers && isAllButEmf(powers, laws)) return wrong(tell([powers.slip], powers.reading, laws));
  for (const { reading, matches } of tries) {
    const slips = matches.flatMap((match) => nameSlips(match, laws)).filter((way) => !isSpared(way, reading));
    if (slips.length) return wrong(tell(chooseSingle(chooseApart(slips, reading, laws), reading), reading, laws));
  }
  if (powers) return wrong(tell([powers.slip], powers.reading, laws));
  const putIn = known.flatMap((reading) => findPutIn(reading, laws));
  if (putIn.length && putIn.length <= MOST_NEAR) return wrong(putIn.map((each) => tellPutIn(each, laws)));
  const [{ reading, matches }] = tries;
  const values = matches.filter(({ changes, natural, agreeing }) => changes.size === 1 && agreeing > (natural ? 0 : 1)).flatMap((match) => nameValue(match, reading, laws));
  return values.length ? wrong(tell(values, reading, laws)) : pointTo(reading, matches, laws);
}

/** Slips that are told where their term was typed by itself; that a sum allows them explains less than other slips do. */
const TYPED_APART = /^(twice|other-value|extra-(emf|resistor|battery))$/;

/** The likelier slips, where there are such. */
export function chooseApart(slips, reading, laws) {
  const apart = slips.filter((way) => {
    const { column, written } = findTerm(way);
    if (way.slip === "wrong-current") return !isOwnTerm(way, laws);
    return !TYPED_APART.test(way.slip) || hasTerm(reading, column, written, way.match.factor);
  });
  return apart.length ? apart : slips;
}

/** Whether a resistance with the wrong current is just what another part has of that current: then it was meant for that part. */
function isOwnTerm({ part, column }, { live }) {
  const { drop } = live.find(({ name }) => name === part);
  return live.some((other) => other.column === column && other.drop === drop);
}

/** Single terms before all terms of a part or a branch; of these those typed last, for a walk goes on as it began. */
function chooseSingle(slips, { terms }) {
  const isWhole = ({ slip }) => slip.endsWith("-turned");
  if (!slips.every(isWhole)) return slips.filter((way) => !isWhole(way));
  const place = (way) => terms.map(({ column }) => column).lastIndexOf(way.column);
  const last = Math.max(...slips.map(place));
  return slips.filter((way) => place(way) === last);
}

/** I3 = 0 for a bare wire: no voltage taken for no current. */
export function judgeNothingInWire({ typed }, laws) {
  const [column, ...more] = typed.flatMap((value, at) => (value.isZero ? [] : [at]));
  const wire = more.length ? null : listBareWires(laws).find((part) => part.column === column);
  return wire ? wrong([describeSlip([{ slip: "nothing-in-wire", part: wire.name, column, law: null }], laws)]) : null;
}

function tellPutIn(putIn, laws) {
  const values = describePutIn(putIn, laws);
  return { kind: kindOfSlip("put-in-sign"), part: null, current: values.current, origin: values.where, slip: "put-in-sign", say: { key: "put-in-sign", values } };
}

const wrong = (faults) => ({ verdict: "false", origin: faults[0].origin, faults, say: faults[0].say, walk: faults[0].walk });

/**
 * Not true, and without a current. One number is a multiple of any other, so it is laid beside the laws as large as it was
 * typed, and only what is left out of a loop can explain it.
 */
export function judgeWithoutCurrent(reading, laws) {
  const left = nameNatural(reading, laws).filter(({ slip }) => slip.startsWith("missing"));
  if (left.length) return wrong(tell(left, reading, laws));
  const rise = reading.typed.at(-1).times(reading.choice.voltage).times(fraction(laws.scale)).size();
  const near = rise.isZero ? [] : laws.laws.filter(({ rule, row }) => rule === "loop" && fraction(row.at(-1)).size().equals(rise));
  return point("only-emfs", near, near.length ? "only-emfs.several" : "no-current");
}

/** One number that differs from a law by nothing known, as each part that it may belong to. */
export function nameValue(match, reading, laws) {
  const [column] = match.changes.keys();
  const { law } = match;
  const inRow = law.terms.filter((term) => term.column === column && term.value);
  const foreign = law.rule === "loop" ? laws.live.filter((part) => part.column === column && part.drop) : [];
  const bare = laws.live.filter((part) => part.column === column && !part.drop && !part.rise && law.walk.includes(part.name));
  const isBare = !inRow.length && !foreign.length && bare.length === 1;
  const parts = inRow.length ? leftOver(inRow, reading, match) : isBare ? [bare[0].name] : foreign.length === 1 ? [foreign[0].name] : [null];
  const slip = inRow.length ? "wrong-value" : isBare ? "extra-wire" : "extra-number";
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
export function tell(slips, reading, laws) {
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
