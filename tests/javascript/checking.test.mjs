import assert from "node:assert/strict";
import { test } from "node:test";
import { asChosen } from "../../docs/assets/javascripts/laws/as-chosen.mjs";
import { checkEquation } from "../../docs/assets/javascripts/laws/check-equation.mjs";
import { workOut } from "../../docs/assets/javascripts/laws/meaning.mjs";
import { findLaws } from "../../docs/assets/javascripts/laws/check-laws.mjs";
import { answerEquation, prepare as prepareEquation, viewHint, viewSet } from "../../docs/assets/javascripts/page/checking.mjs";
import { answerNumbers, prepare as prepareNumbers } from "../../docs/assets/javascripts/page/checking-numbers.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";
import { writeLaws } from "../measure/laws.mjs";
import { makeRandom } from "../measure/random.mjs";
import { type } from "../measure/writing.mjs";

const records = loadRecords();
const link = findExample(records, "link-wire");

/** What a check knows of a page on which this was chosen. */
function placeOf(example, choices = {}) {
  const worked = workOut(example, choices);
  const shown = choices.walk || choices.leaveOut ? asChosen(worked) : example;
  return { example: shown, flip: choices.flip ?? [], topology: worked.topology, equations: worked.written.equations, base: "" };
}

const textOf = (tree) => (typeof tree === "string" ? tree : tree.slice(2).map(textOf).join(""));
const textsOf = (trees) => trees.map(textOf).join(" ").replace(/ +/g, " ");

test("the page's own equations, as printed, are true and make a whole set, whatever was chosen", () => {
  for (const { example } of records.filter(({ kind }) => kind === "demo")) {
    const [first] = example.unknowns;
    for (const choices of [{}, { flip: [first] }, { leaveOut: example.junctions[0]?.name ?? "" }]) {
      const place = placeOf(example, choices);
      const texts = workOut(example, choices).written.equations.map(({ factors, right }) => `${[...factors].map(([name, factor]) => `(${factor}) ${name}`).join(" + ")} = ${right}`);
      const set = texts.reduce((so, text) => answerEquation(text, so, place).set, []);
      assert.equal(set.length, texts.length, example.address);
      assert.equal(set.length && viewSet(set, place).missing, 0, example.address);
      assert.deepEqual(viewHint(set, place), []);
    }
  }
});

test("loops have the names that the reader sees, also where they decide too little", () => {
  const walk = [{ start: "d", through: ["E1", "W1", "R2"] }];
  const place = placeOf(link, { walk });
  assert.match(textsOf(answerEquation("12.8 = 0.2 I1 + 4 I4", [], place).says), /^True: the loop rule round L4, walked E1, W1, R2\./);
  assert.match(textsOf(answerEquation("12.8 = 0.2 I1 + 6 I2", [], place).says), /^True: the loop rule round E1, R1/);
});

test("a twin of an equation of the set is not added; one that follows is, and is told so", () => {
  const place = placeOf(link);
  const set = ["12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4"];
  assert.deepEqual(answerEquation("6 I2 + 0.2 I1 = 12.8", set, place).set, set);
  assert.equal(answerEquation("12.8 = 0.2 I1 + 4 I4", set, place).set.length, 3);
  assert.deepEqual(answerEquation("12.8 = 0.2 I1 - 4 I4", set, place).set, set);
});

test("a number stated is told kindly that it is no law, and stays out of the set", () => {
  const { set, says, verdict } = answerEquation("I1 = 4 A", [], placeOf(link));
  assert.deepEqual([set, verdict], [[], "combination"]);
  assert.equal(textsOf(says), "True: that is the answer itself. A number is no law, so it does not count in the set: check it under My numbers.");
});

test("two near laws are both linked, and a wrong prefix leads to the section about units", () => {
  const links = (trees) => trees.flatMap(function find(tree) {
    return typeof tree === "string" ? [] : [...(tree[1].href ? [tree[1].href] : []), ...tree.slice(2).flatMap(find)];
  });
  const place = placeOf(link);
  assert.deepEqual(links(answerEquation("12.8 = 0", [], place).says), ["#loop-3", "#loops"]);
  assert.deepEqual(links(answerEquation("12.8 = 0.2 I1 + 6000 I2", [], place).says), ["#equations"]);
  const numbers = answerNumbers({ I1: "4 mA", I2: "2 mA", I3: "2 mA", I4: "3 mA", I5: "1 mA" }, [], place);
  assert.deepEqual(links(numbers.says), ["#equations"]);
});

test("what is done ahead of the first verdict comes in pieces, at least one for each law, for every circuit", () => {
  for (const { example } of records) {
    const place = placeOf(example);
    const { laws } = findLaws(example);
    for (const prepare of [prepareEquation, prepareNumbers]) assert.ok([...prepare(place)].length > laws.length, example.address);
  }
});

test("a hint names a part in no equation, then a junction, and never an equation", () => {
  const place = placeOf(link);
  const loops = ["12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "4 I4 + 0.2 I5 = 12.2"];
  assert.match(textsOf(viewHint(loops.slice(0, 2), place)), /^E2 is in none of your equations yet/);
  assert.match(textsOf(viewHint(loops, place)), /^Look at junction c/);
  assert.doesNotMatch(textsOf(viewHint(loops, place)), /=/);
});

test("numbers that do not fit true equations send the student to the algebra", () => {
  const own = ["I1 = I2 + I3", "I4 = I3 + I5", "12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "0.2 I5 + 4 I4 = 12.2"];
  const right = { I1: "4", I2: "2", I3: "2", I4: "3", I5: "1.5" };
  assert.match(textsOf(answerNumbers(right, own, placeOf(link)).says), /^Your equations are right, but these numbers do not follow from them/);
});

test("beside a whole set of true equations nobody is asked to type them, and close numbers are not sent to the algebra", () => {
  const own = ["I1 = I2 + I3", "I4 = I3 + I5", "12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "0.2 I5 + 4 I4 = 12.2"];
  const say = (values, equations) => textsOf(answerNumbers(Object.fromEntries(values.map((value, at) => [`I${at + 1}`, value])), equations, placeOf(link)).says);
  const rough = ["4.1", "2.1", "2.1", "3.1", "1.0"];
  assert.match(say(rough, []), /Type your equations/);
  assert.match(say(rough, own), /^Your equations are right/);
  assert.doesNotMatch(say(rough, own), /Type your equations/);
  const close = ["4.06", "2", "2", "3", "1"];
  assert.match(say(close, own), /^Close: I1 is off by 1.5 %/);
  assert.doesNotMatch(say(close, own), /algebra/);
});

test("beside enough true equations the broken law is told, and the number that alone does not fit", () => {
  const says = (name, values, equations) => textsOf(answerNumbers(Object.fromEntries(values.map((value, at) => [`I${at + 1}`, value])), equations, placeOf(findExample(records, name))).says);
  const own = ["I1+I2+I3=0", "12-3I1+2I3-13=0", "12-3i1=6-i2"];
  const solving = "^Your equations are right, but these numbers do not follow from them. Your numbers do not fit the";
  for (const equations of [own, [...own, "12 - 3 I1 - I2 = 0"]]) assert.match(says("three-banks", ["1", "-2.9", "1.9"], equations), new RegExp(`${solving} loop rule round L1: 0.100\u00a0V are left over. Look`));
  assert.match(says("three-banks", ["1", "-4", "2"], own), new RegExp(`${solving} junction rule at c: 1.00\u00a0A more leave than enter. I2 does not fit I1 and I3. Look`));
  assert.match(says("three-banks", ["1", "-3", "2.2"], own), new RegExp(`${solving} junction rule at c: 0.200\u00a0A more enter than leave. I3 does not fit I1 and I2. Look`));
  assert.match(says("bilge-pump-two-banks", ["6", "-3", "2.9"], []), /^Your numbers do not fit the junction rule at c: 0.100\u00a0A more enter than leave. I3 does not fit I1 and I2. Look/);
  assert.match(says("bilge-pump-two-banks", ["6", "-2", "2.9"], []), /No single slip explains them. Type your equations/);
  // Three true equations of which one says nothing new are not enough to say where the slip is.
  assert.doesNotMatch(says("three-banks", ["1", "-4", "2"], [...own.slice(0, 2), "2I1+2I2+2I3=0"]), /Your equations/);
});

test("an equation without its right side is accepted, and is told what it lacks", () => {
  const says = (typed) => textsOf(answerEquation(typed, [], placeOf(findExample(records, "bilge-pump-two-banks"))).says);
  for (const typed of ["I1 + I2 - I3", "1.2-0.1I1+0.2I2"]) {
    assert.match(says(typed), /^True: .* needs “= 0” at its end/);
    assert.doesNotMatch(says(`${typed} = 0`), /needs/);
  }
});

test("a term moved across is told as it was typed", () => {
  const says = (typed) => textsOf(answerEquation(typed, [], placeOf(findExample(records, "bilge-pump-two-banks"))).says).replaceAll("\u00a0", " ");
  for (const [typed, side] of [["0.1 I1 + 0.2 I2 = 1.2", "left"], ["12.6 - 0.1 I1 = 11.4 + 0.2 I2", "right"]]) {
    assert.ok(says(typed).includes(`rises there. On the ${side} side of your equation a rise counts minus: − 0.2 I2, not + 0.2 I2. Look`), says(typed));
  }
  assert.match(says("0.1 I1 = 1.2"), /lies on this loop too: − 0.2 I2 is missing on the left side of your equation. Look/);
  assert.match(says("I3 = I1"), /I2 meets junction c too: \+ I2 is missing on the right side of your equation\. Look/);
  assert.match(says("0.1 I1 - 0.7 I2 = 1.2"), / − 0.2 I2, not − 0.7 I2\. Look/);
  assert.match(says("12.6 = 4 I3"), /lies on this loop too: \+ 0.1 I1 is missing on the right side of your equation\. Look/);
  assert.match(says("12.6 = 0.1 I1 + 4 I1"), /its term is \+ 4 I3 on the right side of your equation\. Look/);
  assert.doesNotMatch(says("12.6 - 0.1 I1 - 11.4 - 0.2 I2 = 0"), /The way|Where you/);
});

test("what is true only by the values is named and stays out of the set", () => {
  const place = placeOf(findExample(records, "floating-bank"));
  const { set, says } = answerEquation("12 + 0.2 I2 = 3 I3", [], place);
  assert.deepEqual(set, []);
  assert.match(textsOf(says), /^True only by chance: with these values I2 is zero\. .* not /);
  assert.equal(answerEquation("12 - 0.2 I2 = 3 I3", [], place).set.length, 1);
});

test("of two currents that are asked for the one that was not typed is still open", () => {
  const place = placeOf(findExample(records, "bilge-pump-two-banks"));
  assert.match(textsOf(answerNumbers({ I1: "", I2: "", I3: "3" }, [], place).says), /^Right\. Still open of what the question asks for: I2\./);
  assert.match(textsOf(answerNumbers({ I1: "", I2: "-3", I3: "3" }, [], place).says), /^Right\. The other currents are still open/);
});

test("who adds what is said to be missing has the law, on the side that is told", () => {
  const random = makeRandom(5);
  let told = 0;
  for (const { example } of records.filter(({ kind }) => kind === "demo")) {
    for (const law of writeLaws(example)) {
      for (const gone of law.terms.filter(() => law.terms.length > 2)) {
        const text = type(law.terms.filter((term) => term !== gone), law, example.units, random);
        const says = textsOf(answerEquation(text, [], placeOf(example)).says).replaceAll("\u00a0", " ");
        const [, term, side] = /([+−] [^+−]+?) is missing(?: on (?:its|the) (left|right) side)?/.exec(says) ?? [];
        if (!term) continue;
        const [left, right] = text.split(" = ");
        const added = { left: `${left} ${term} = ${right}`, right: `${left} = ${right} ${term}` };
        const verdicts = (side ? [added[side]] : Object.values(added)).map((each) => checkEquation(example, each).verdict);
        assert.ok(verdicts.some((verdict) => verdict === law.rule), `${example.address}: ${text}: ${says}`);
        told += 1;
      }
    }
  }
  assert.ok(told > 100, `${told}`);
});

test("of numbers with too few figures nothing is said but that", () => {
  const place = placeOf(findExample(records, "tank-gauge-bridge"));
  const own = ["I1 = I2 + I3", "I2 = I4 + I6", "I3 + I6 = I5", "12 = I2 + 3 I4", "I2 = 2 I3", "3 I4 = 6 I5"];
  const numbers = { I1: "5", I2: "3", I3: "2", I4: "3", I5: "2", I6: "0" };
  for (const equations of [[], own]) assert.equal(textsOf(answerNumbers(numbers, equations, place).says), "Too few figures to tell: give three.");
});
