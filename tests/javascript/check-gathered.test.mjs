/** What a student is told to have written stands in the equation, however its terms are added up. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { checkEquation } from "../../docs/assets/javascripts/laws/check-equation.mjs";
import { writeTerm } from "../../docs/assets/javascripts/laws/check-words.mjs";
import { sentence } from "../../docs/assets/javascripts/laws/slip-words.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";
import { answerOf, isTrue, makeSlips, writeLaws } from "../measure/laws.mjs";
import { sizeFor } from "../measure/writing.mjs";

const records = loadRecords();
const demo = records.filter(({ kind }) => kind === "demo").map(({ example }) => example);
const loopsOf = (example) => writeLaws(example).filter(({ rule }) => rule === "loop");
const plainText = (text) => text.replaceAll("\u00a0", " ");

/** One term for each current and one for the emfs. */
function gather(terms) {
  const sums = new Map();
  for (const { current, factor } of terms) sums.set(current, sums.has(current) ? sums.get(current).plus(factor) : factor);
  return [...sums].filter(([, factor]) => !factor.isZero).map(([current, factor]) => ({ current, factor }));
}

const inUnits = (terms, law, { units }) => terms.map((term) => ({ ...term, factor: term.factor.over(sizeFor(term, law, units)) }));
const type = (terms) => `${terms.map(({ current, factor }) => `(${factor}) ${current}`).join(" + ")} = 0`;
const tellAll = ({ faults, doubts = [] }) => [...faults, ...doubts];

test("a current whose gathered term has the wrong sign is told that whole term, in every loop of every demo circuit", () => {
  let tried = 0;
  for (const example of demo) {
    for (const law of loopsOf(example)) {
      const terms = inUnits(gather(law.terms), law, example);
      // What has one term only says the same with either sign.
      for (const turned of terms.filter(({ current }) => current && terms.length > 1)) {
        const written = turned.factor.negated();
        const text = type(terms.map((term) => (term === turned ? { ...term, factor: written } : term)));
        const told = tellAll(checkEquation(example, text)).map(({ say }) => sentence(say));
        const expected = `${writeTerm(turned.factor, turned.current)}, not ${writeTerm(written, turned.current)}.`;
        assert.ok(told.some((each) => each.endsWith(expected)), `${example.address}: ${text}: ${expected} ${told}`);
        tried += 1;
      }
    }
  }
  assert.ok(tried > 100);
});

test("no slip in a demo circuit is told with a term that was not written, apart or gathered", () => {
  let told = 0;
  for (const example of demo) {
    for (const law of loopsOf(example)) {
      for (const slip of makeSlips(law, loopsOf(example), example).filter(({ terms }) => terms.length && !isTrue(terms, answerOf(example)))) {
        const apart = inUnits(slip.terms, law, example);
        for (const terms of [apart, gather(apart)]) {
          const stands = [...terms, ...gather(terms)].map(({ current, factor }) => writeTerm(factor, current));
          for (const { say } of tellAll(checkEquation(example, type(terms)))) {
            const [written] = /(?<=not )[+−]\u00a0.+?(?=\.(?: |$))|(?<=: )[+−][^:]+(?= does not belong)/.exec(sentence(say)) ?? [];
            if (!written) continue;
            assert.ok(stands.includes(written), `${example.address}: ${type(terms)}: ${sentence(say)}`);
            told += 1;
          }
        }
      }
    }
  }
  assert.ok(told > 1000);
});

const single = [
  ["12 + 15 I1 = 0", "branch-sign", "I1 keeps its arrow all along R1, R2. In your equation all their terms have the wrong sign: − 15 I1, not + 15 I1."],
  ["12 + 3 I1 + 12 I1 = 0", "branch-sign", "I1 keeps its arrow all along R1, R2. In your equation all their terms have the wrong sign: − 15 I1, not + 15 I1."],
  ["12 - 9 I1 = 0", "resistor-sign", "You go through R1 along I1, so the potential drops there: − 3 I1, in all − 15 I1, not − 9 I1."],
  ["12 + 3 I1 - 12 I1 = 0", "resistor-sign", "You go through R1 along I1, so the potential drops there: − 3 I1, not + 3 I1."],
  ["12 - 3 I1 - 13 I1 = 0", "wrong-value", "The term of R2 should be − 12 I1, not − 13 I1."],
  ["12 - 13.5 I1 = 0", "wrong-value", "The term of R1 should be − 3 I1, in all − 15 I1, not − 13.5 I1."],
  ["12 - 12 I1 = 0", "missing-resistor", "R1 lies on this loop and is not in your equation: − 3 I1 is missing."],
  ["12 - 18 I1 = 0", "twice", "R1 counts once round this loop: − 3 I1, in all − 15 I1. You count it twice."],
];

test("a part's own term is told beside the sum in which it was written, and alone where it was written alone", () => {
  for (const [text, slip, expected] of single) {
    const { faults } = checkEquation(findExample(records, "heater-switch-open"), text);
    assert.equal(plainText(sentence(faults.find((fault) => fault.slip === slip).say)), expected, text);
  }
});

test("terms of one current on both sides are told to change sign on the other", () => {
  const { faults } = checkEquation(findExample(records, "heater-switch-open"), "12 - 3 I1 = -12 I1");
  assert.deepEqual(faults.map(({ part, say }) => [part, say.values.moved]), [["R2", true]]);
});
