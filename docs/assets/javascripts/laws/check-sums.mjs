/** What follows from the laws without being one: how an equation is put together from those of the page. */
import { findChance } from "./check-chance.mjs";
import { followFromPage, valueOf } from "./check-laws.mjs";
import { findPutIn } from "./check-put-in.mjs";
import { isMeant, isUsual } from "./check-units.mjs";
import { describePutIn, describeSum } from "./check-words.mjs";
import { ONE } from "./fraction.mjs";

/** True, and so a sum of laws: for the row is at right angles to the answer, as the laws are, and they are as many as can be. */
export function findSum(readings, laws) {
  const sums = readings.filter(({ row }) => row.some(Boolean) && valueOf(row, laws.answer).isZero).map((each) => ({ ...each, ...makeSum(each, laws) }));
  // In units that are neither the page's nor SI a slip can come out true by chance.
  const isLike = (reading) => reading.shares.every(({ law, factor }) => law.rule === "junction" || isMeant(reading, factor, laws));
  const reading = sums.find((each) => isLike(each) && (isUsual(each.choice, laws) || (each.natural && isPutTogether(each.shares, laws))));
  if (!reading) return null;
  const { shares, natural } = reading;
  const sum = { verdict: "combination", faults: [], ...describeSum(shares, reading, laws) };
  const isLong = sum.say.key === "is-long-sum";
  const putIn = isLong && findPutIn(reading, laws).find(({ right, written }) => right === written);
  if (putIn) return { ...sum, say: { key: "is-put-in", values: describePutIn(putIn, laws) } };
  const chance = isNumber(reading) ? null : findChance(reading, { isLong, natural }, laws);
  return chance ? { ...sum, say: { ...sum.say, key: chance.key }, doubts: chance.doubts } : sum;
}

/** I1 = 2: a current by itself, and its value. */
export function isNumber({ typed, terms, equals }) {
  const columns = new Set(terms.map(({ column }) => column));
  const [factor, ...more] = typed.slice(0, -1).filter((value) => !value.isZero);
  return Boolean(equals && factor?.size().equals(ONE)) && !more.length && terms.length === 2 && columns.size === 2;
}

/** How a row is made of the page's equations. Putting one into another takes whole loops, and junctions any number of times. */
function makeSum(reading, laws) {
  const shares = followFromPage(laws, reading.row);
  const loops = shares.filter(({ law }) => law.rule === "loop").map(({ factor }) => factor.size());
  return { shares, natural: loops.every((factor) => factor.equals(loops[0])) };
}

/** Whether junctions are put in with factors that a substitution has: a resistance of one part or of a whole branch. */
function isPutTogether(shares, laws) {
  const unit = shares.find(({ law }) => law.rule === "loop")?.factor;
  if (!unit) return true;
  const sums = laws.unknowns.map((_, column) => laws.live.filter((part) => part.column === column).reduce((sum, { drop }) => sum + drop, 0n));
  const factors = new Set([...sums, ...laws.live.map(({ drop }) => drop)].map(String));
  return shares.every(({ law, factor }) => law.rule === "loop" || factors.has(factor.over(unit).size().toString()));
}
