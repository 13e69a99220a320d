/** How well slips are named from the numbers alone, and how often numbers are accused for nothing. */
import { checkNumbers } from "../../docs/assets/javascripts/laws/check-numbers.mjs";
import { IndependentRows, solve } from "../../docs/assets/javascripts/laws/elimination.mjs";
import { fraction, ONE, ZERO } from "../../docs/assets/javascripts/laws/fraction.mjs";
import { MINUS, rounded } from "../../docs/assets/javascripts/laws/numeral.mjs";
import { answerOf, makeSlips, writeLaws } from "./laws.mjs";
import { pick, shuffle } from "./random.mjs";

const sizes = { m: fraction(1n, 1000n), µ: fraction(1n, 1000000n) };

/**
 * Every single slip in every equation of sets that students choose themselves, worked out and typed to three figures.
 * @returns {Record<string, number>}
 */
export function measureNumberSlips(example, random, rounds = 2, share = 1) {
  const counts = { slips: 0, same: 0, alone: 0, aloneNamed: 0, close: 0, candidate: 0, worded: 0, one: 0, two: 0, silent: 0, oneWrong: 0, twoWrong: 0, times: [] };
  for (let round = 0; round < rounds; round += 1) {
    const flip = example.unknowns.filter(() => random() < 0.3);
    const laws = writeLaws(example, flip);
    const set = chooseSet(shuffle(laws, random), example);
    for (const law of set) for (const slip of makeSlips(law, laws, example, { anyValue: false })) if (random() <= share) countSlip(slip, law, set, flip, example, counts);
  }
  return counts;
}

function countSlip(slip, law, set, flip, example, counts) {
  const wrong = solveSet(set.map((each) => (each === law ? slip.terms : each.terms)), example);
  if (!wrong) return;
  const right = answerOf(example, flip);
  const typed = Object.fromEntries(example.unknowns.map((name, at) => [name, type(wrong[at], example)]));
  const start = performance.now();
  const found = checkNumbers(example, typed, { flip });
  counts.times.push(performance.now() - start);
  if (found.verdict === "right" || example.unknowns.every((name, at) => wrong[at].equals(right[name]))) {
    counts.same += 1;
    return;
  }
  if (example.unknowns.length === 1) {
    // One number is too little to name a slip by.
    counts.alone += 1;
    if (found.slips.some(({ slip: name }) => !name.startsWith("current-"))) counts.aloneNamed += 1;
    return;
  }
  counts.slips += 1;
  if (found.close) counts.close += 1;
  const isIt = (fault) => isSlip(fault, slip, law);
  if (found.candidates.some(isIt)) counts.candidate += 1;
  const hit = found.slips.flatMap((fault) => [fault, ...(fault.also ?? [])]).some(isIt);
  if (found.slips.some(isIt)) counts.worded += 1;
  const simple = found.slips.every((each) => each.slip.startsWith("current-"));
  const names = found.slips.length;
  if (!found.slips.length) counts.silent += 1;
  else if (hit || simple) counts[names === 1 ? "one" : "two"] += 1;
  else counts[names === 1 ? "oneWrong" : "twoWrong"] += 1;
}

/** A slip has a nature and a part (at a junction a current). */
function isSlip(fault, { kind, part, current }, law) {
  if (fault.kind !== kind) return false;
  if (law.rule === "junction") return fault.current === current;
  return (fault.parts ?? [fault.part]).includes(part) || ((fault.slip === "branch-sign" || fault.slip === "arrow-turned") && fault.current === current);
}

/** Independent laws in a random order, as many as unknowns: any junctions, any loops. */
function chooseSet(laws, example) {
  const known = new IndependentRows();
  return laws.filter(({ terms }) => known.add(rowOf(terms, example)) === null);
}

function rowOf(terms, example) {
  return example.unknowns.map((name) => terms.filter(({ current }) => current === name).reduce((sum, { factor }) => sum.plus(factor), ZERO));
}

function solveSet(set, example) {
  const rights = set.map((terms) => terms.filter(({ current }) => !current).reduce((sum, { factor }) => sum.minus(factor), ZERO));
  try {
    return solve(set.map((terms) => rowOf(terms, example)), rights);
  } catch {
    return null;
  }
}

/** A current to so many figures, in the page's unit. */
export function type(value, example, figures = 3) {
  const unit = example.units.current;
  return `${rounded(value.over(unit.length > 1 ? sizes[unit[0]] : ONE), figures).replace(MINUS, "-")} ${unit}`;
}

/** Numbers that come from nowhere, and right numbers with one digit miscopied: what is named there is an accusation. */
export function measureAccused(example, random, rounds = 20) {
  const counts = { random: 0, randomNamed: 0, digit: 0, digitNamed: 0, right: 0, rightWrong: 0 };
  for (let round = 0; round < rounds; round += 1) {
    const flip = example.unknowns.filter(() => random() < 0.3);
    const right = answerOf(example, flip);
    const typed = Object.fromEntries(example.unknowns.map((name) => [name, type(right[name], example, pick([2, 3, 3, 4, 5], random))]));
    const found = checkNumbers(example, typed, { flip });
    counts.right += 1;
    if (found.verdict !== "right") {
      counts.rightWrong += 1;
    }
    const invented = Object.fromEntries(example.unknowns.map((name) => [name, `${(random() * 20 - 10).toPrecision(3)} ${example.units.current}`]));
    const accused = checkNumbers(example, invented, { flip });
    counts.random += 1;
    if (accused.slips.length) counts.randomNamed += 1;
    const name = pick(example.unknowns, random);
    const text = type(right[name], example, 3);
    const at = pick([...text].flatMap((sign, place) => (/\d/.test(sign) ? [place] : [])), random);
    const digit = { ...Object.fromEntries(example.unknowns.map((each) => [each, type(right[each], example, 3)])), [name]: text.slice(0, at) + `${(Number(text[at]) + 1 + Math.floor(random() * 8)) % 10}` + text.slice(at + 1) };
    const slipped = checkNumbers(example, digit, { flip });
    if (slipped.verdict === "right") continue;
    counts.digit += 1;
    if (slipped.slips.length) counts.digitNamed += 1;
  }
  return counts;
}
