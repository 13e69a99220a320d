/** How well single slips in equations are named, and whether anything right is ever called wrong. */
import { checkEquation } from "../../docs/assets/javascripts/laws/check-equation.mjs";
import { fraction } from "../../docs/assets/javascripts/laws/fraction.mjs";
import { answerOf, isTrue, makeSlips, writeLaws } from "./laws.mjs";
import { pick } from "./random.mjs";
import { type, unitsFor } from "./writing.mjs";

/**
 * Every single slip in every law, each typed once in a way of its own.
 * @returns {Record<string, number>} counts: slips (that are not true by chance), one, two, more, pointed, missed, misled;
 *   law: the right law is among those named; times [ms]
 */
export function measureSlips(example, random, share = 1) {
  const counts = { slips: 0, still: 0, one: 0, two: 0, more: 0, pointed: 0, missed: 0, misled: 0, law: 0, times: [] };
  const flip = example.unknowns.filter(() => random() < 0.3);
  const laws = writeLaws(example, flip);
  for (const law of laws) {
    for (const slip of makeSlips(law, laws, example)) {
      if (random() > share || !slip.terms.length) continue;
      const text = type(slip.terms, law, unitsFor(example, random), random);
      const start = performance.now();
      const verdict = checkEquation(example, text, { flip });
      counts.times.push(performance.now() - start);
      // Twelve thousand millivolts with milliamperes is no slip; what happens to be typed as I2 = 14 is a number.
      if (isTrue(slip.terms, answerOf(example, flip)) || verdict.units || verdict.say.key === "no-law") counts.still += 1;
      else sort(verdict, slip, law, laws, counts);
    }
  }
  return counts;
}

function sort(verdict, slip, law, laws, counts) {
  counts.slips += 1;
  const isLaw = (each) => sameLaw(each, law, laws);
  const found = verdict.verdict === "false" && verdict.faults.some((fault) => isSlip(fault, slip, law, laws));
  const count = verdict.faults.length;
  const pointed = verdict.faults.some(isLaw) || (!count && (verdict.near ?? [verdict]).some(isLaw));
  if (pointed) counts.law += 1;
  if (found) counts[count === 1 ? "one" : count === 2 ? "two" : "more"] += 1;
  else counts[pointed ? "pointed" : count ? "misled" : "missed"] += 1;
}

/** In a circuit of two junctions both have one equation, so a slip in one is a slip in the other. */
function sameLaw({ origin, walk }, law, laws) {
  if (law.rule === "loop") return Boolean(walk) && walk.length === law.parts.length && walk.every((part) => law.parts.includes(part));
  const named = laws.find((other) => other.rule === "junction" && other.origin === origin);
  return Boolean(named) && (named === law || keyOf(named) === keyOf(law));
}

const keyOf = ({ terms }) => terms.map(({ current }) => current).sort().join();

function isSlip(fault, slip, law, laws) {
  if (fault.kind !== slip.kind || !sameLaw(fault, law, laws)) return false;
  if (law.rule === "junction") return fault.current === slip.current;
  return (fault.parts ?? [fault.part]).includes(slip.part);
}

/** True laws and true combinations in any way of writing; each that is not called true, or is doubted, is counted. */
export function measureRight(example, random, rounds = 4) {
  const counts = { laws: 0, lawsWrong: 0, sums: 0, sumsWrong: 0 };
  for (let round = 0; round < rounds; round += 1) {
    const flip = example.unknowns.filter(() => random() < 0.3);
    const laws = writeLaws(example, flip);
    for (const law of laws) tally(checkEquation(example, type(law.terms, law, unitsFor(example, random), random), { flip }), "laws", counts, ({ verdict, say }) => verdict === law.rule || say.key === "is-answer");
    for (let count = 0; count < laws.length; count += 1) {
      const [one, other] = [pick(laws, random), pick(laws, random)];
      if (one.rule !== other.rule && one.rule === "junction") continue;
      const factor = pick([1n, -1n, 2n, -3n], random);
      const terms = join([...one.terms, ...other.terms.map((term) => ({ ...term, factor: term.factor.times(fraction(factor)) }))]);
      if (terms.length) tally(checkEquation(example, type(terms, { rule: one.rule }, example.units, random), { flip }), "sums", counts, ({ verdict }) => ["combination", "loop", "junction"].includes(verdict));
    }
  }
  return counts;
}

function tally(found, name, counts, isRight) {
  counts[name] += 1;
  if (isRight(found) && !found.faults.length) return;
  counts[`${name}Wrong`] += 1;
}

function join(terms) {
  const sums = new Map();
  for (const term of terms) sums.set(term.current, sums.has(term.current) ? sums.get(term.current).plus(term.factor) : term.factor);
  return [...sums].filter(([, factor]) => !factor.isZero).map(([current, factor]) => ({ part: null, current, factor }));
}
