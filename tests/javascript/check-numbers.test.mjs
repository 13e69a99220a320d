import assert from "node:assert/strict";
import { test } from "node:test";
import { checkNumbers } from "../../docs/assets/javascripts/laws/check-numbers.mjs";
import { sentence } from "../../docs/assets/javascripts/laws/slip-words.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";

const records = loadRecords();
const example = (name) => findExample(records, name);
const link = example("link-wire"); // 4, 2, 2, 3 and 1 A
const frost = example("frost-bridge"); // in mA
const check = (values, choices, name = "link-wire") => checkNumbers(example(name), Object.fromEntries(values.map((value, at) => [`I${at + 1}`, value])), choices);

const right = [
  [["4", "2", "2", "3", "1"]],
  [["4 A", "2.00 A", "2000 mA", "3,0 A", "1 A"]],
  [["4.02", "2", "1.99", "3", "0.998"]],
  [["8/2", "2", "6/3 A", "3", "1"]],
  [["-4", "2", "2", "3", "1"], { flip: ["I1"] }],
];

test("right numbers are right, in any unit, rounded, and with an arrow and its sign turned together", () => {
  for (const [values, choices] of right) assert.equal(check(values, choices).verdict, "right", values.join());
});

test("every answer is right as the page prints it, and as an exact fraction", () => {
  for (const { example: each } of records) {
    const shown = Object.fromEntries(each.currents.map(({ name, value }) => [name, `${Number(value.toPrecision(3))} A`]));
    const exact = Object.fromEntries(each.currents.map(({ name, exact: text }) => [name, `${text} A`]));
    assert.deepEqual([checkNumbers(each, shown).verdict, checkNumbers(each, exact).verdict], ["right", "right"], each.address);
  }
});

test("that every law holds is said only where every law does", () => {
  const key = (...values) => check(values).say.key;
  assert.equal(key("4.02", "2", "2", "3", "1"), "right-nearly");
  assert.equal(key("4", "2", "2", "3", "1"), "right");
  assert.equal(key("4.00", "2.00", "2.00", "3.00", "1.00"), "right");
  assert.equal(sentence(check(["4.02", "2", "2", "3", "1"]).say), "Right, as far as your figures go.");
  for (const { example: each } of records) {
    const shown = Object.fromEntries(each.currents.map(({ name, value }) => [name, `${value.toPrecision(4)} A`]));
    assert.equal(checkNumbers(each, shown).say.key, "right", each.address);
  }
});

test("few figures are forgiven as they deserve, and a bare zero is not", () => {
  const close = (text) => checkNumbers(frost, { I1: text }).numbers[0].state;
  const size = Math.abs(frost.currents[0].value) * 1000;
  const sign = frost.currents[0].value < 0 ? "-" : "";
  assert.equal(close(`${sign}${size.toPrecision(2)}`), "right");
  assert.equal(close(`${sign}${(size * 1.015).toPrecision(5)}`), "close");
  assert.equal(close(`${sign}${(size * 1.05).toPrecision(5)}`), "wrong");
  assert.equal(close("0"), "wrong");
  assert.equal(close(`${sign ? "" : "-"}${size.toPrecision(3)}`), "sign");
  assert.equal(close(`${sign}${(size / 1000).toPrecision(3)}`), "prefix");
});

test("one figure is too rough where it is more than a tenth off", () => {
  // 2 mA in 138 mA and the like: rounded as printed digits may be, and no answer all the same.
  let count = 0;
  for (const { example: each } of records) {
    const [{ name, value }] = each.currents;
    const rough = Number(value.toPrecision(1));
    const step = 10 ** Math.floor(Math.log10(Math.abs(rough)));
    if (!value || step >= 1 || Math.abs(rough - value) < Math.abs(value) * 0.11 || Math.abs(rough - value) > step / 2) continue;
    assert.equal(checkNumbers(each, { [name]: `${rough} A` }).numbers[0].state, "rough", each.address);
    count += 1;
  }
  assert.ok(count > 2, `${count} circuits`);
});

test("only a sign, or only a prefix, is said to be just that", () => {
  const sign = check(["4", "2", "2", "-3", "1"]);
  assert.deepEqual([sign.verdict, sign.slips[0].kind, sign.slips[0].current, sign.say.key], ["wrong", "sign", "I4", "current-sign"]);
  const prefix = check(["4 mA", "2 mA", "2 mA", "3 mA", "1 mA"]);
  assert.deepEqual([prefix.slips[0].kind, sentence(prefix.say)], ["value", "I1, I2, I3, I4, I5: that would be right in A. In mA it is a thousand times too small."]);
});

// On a page in mA; one of the currents of the bridge is negative.
test("a number off by a thousand is told which way, and in which unit it would be right", () => {
  const { name, value } = frost.currents.find((each) => each.value < 0);
  const told = (text) => sentence(checkNumbers(frost, { [name]: text }).say).slice(name.length + 2);
  const [milli, micro] = [1e3, 1e6].map((size) => (value * size).toPrecision(4));
  assert.equal(checkNumbers(frost, { [name]: milli }).verdict, "right");
  assert.equal(told(micro), "that would be right in µA. In mA it is a thousand times too large.");
  assert.equal(told(`${micro} mA`), "that would be right in µA. In mA it is a thousand times too large.");
  assert.equal(told(value.toPrecision(4)), "that would be right in A. In mA it is a thousand times too small.");
  assert.equal(told(`${milli} A`), "that would be right in mA. In A it is a thousand times too large.");
  assert.equal(told(micro.replace("-", "")), "the size would be right in µA, not in mA. The sign says it flows the other way.");
});

test("a number in another kind of unit is told which kind, with an example in the unit of the page", () => {
  const told = (text, each = link) => sentence(checkNumbers(each, { I1: text }).say);
  for (const [kind, texts] of Object.entries({ voltage: ["14 V", "14V", "14 volts", "3mV"], resistance: ["5 Ω", "5ohm", "4.7 kΩ"], power: ["12 W", "12watt", "3 mW"] })) {
    for (const text of texts) assert.equal(told(text), `That is a ${kind}. A current is measured in A, mA or µA, for instance 0.42\u00a0A.`, text);
  }
  assert.match(told("14 V", frost), /4\.2\u00a0mA\.$/);
  assert.match(told("abc", frost), /^Type a number with its unit, for instance 4\.2\u00a0mA\.$/);
  assert.match(told("3 s"), /^This is no unit of current/);
});

test("one rough number beside wrong ones does not hide the broken law", () => {
  const values = { I1: "2", I2: "3", I3: "1", I4: "1", I5: "0.5", I6: "5" };
  assert.match(checkNumbers(example("frost-bridge"), values).say.key, /^broken/);
});

test("a broken law is told with what is left over", () => {
  const { verdict, broken, slips } = check(["4.00", "2.00", "2.50", "3.00", "1.00"]);
  assert.deepEqual([verdict, slips], ["wrong", []]);
  assert.deepEqual([broken[0].rule, broken[0].origin], ["junction", "c"]);
  assert.equal(sentence(broken[0].say), "Your numbers do not fit the junction rule at c: 0.500\u00a0A more leave than enter.");
});

// R1's term turned in the loop of E1 and R1, everything else right: −12.8 = 0.2 I1 − 6 I2 and so on, worked out.
test("a slip that gives exactly these numbers is named, with what else would", () => {
  const { verdict, slips, say } = checkNumbers(example("openstax-up2-fig-10-26"), { I1: "10.04 A", I2: "-2.04 A", I3: "-5.02 A" });
  assert.equal(verdict, "wrong");
  assert.deepEqual([slips, say.key.startsWith("broken")], [[], true]);
  const named = checkNumbers(example("openstax-up2-fig-10-26"), slipped());
  assert.ok(named.slips.some(({ kind, part }) => kind === "sign" && part === "R2"), JSON.stringify(named.slips));
  assert.match(sentence(named.say), /^They are exactly what you get when .*R2/);
});

/** I1 = I2 + I3, 24 = 3 I1 − 3 I2 (the sign of R2), 3 I2 − 7 I3 = 29. */
function slipped() {
  // I1 − I2 = 8 and so I3 = 8, I2 = 85/3, I1 = 109/3.
  return { I1: "36.3 A", I2: "28.3 A", I3: "8.00 A" };
}

test("below three figures nothing is named", () => {
  const { slips, candidates } = checkNumbers(example("openstax-up2-fig-10-26"), { ...slipped(), I3: "8.0 A" });
  assert.deepEqual([slips, candidates.length > 0], [[], true]);
});

test("one number alone is right, turned, or open", () => {
  assert.deepEqual([check(["4"]).verdict, check(["4"]).say.key, check(["4"]).missing], ["right", "right-so-far", ["I2", "I3", "I4", "I5"]]);
  assert.equal(check(["-4"]).say.key, "current-sign");
  assert.deepEqual([check(["5"]).verdict, check(["5"]).say.key, check(["5"]).slips], ["wrong", "single-wrong", []]);
});

test("what cannot be read is marked, and nothing else is judged", () => {
  const { verdict, unread } = check(["4", "two", "2", "3", "1"]);
  assert.deepEqual([verdict, unread], ["unreadable", [{ current: "I2", at: 0, length: 3, reason: "no-number" }]]);
  for (const nothing of [undefined, null, {}, { I1: "" }, { I9: "3" }, 7]) assert.equal(checkNumbers(link, nothing).verdict, "unreadable");
});

const equations = ["I1 = I2 + I3", "I3 + I5 = I4", "12.8 - 0.2 I1 - 6 I2 = 0", "6 I2 = 4 I4", "4 I4 + 0.2 I5 = 12.2"];

test("beside the student's own equations an algebra slip is told from an equation slip", () => {
  assert.equal(check(["5", "2", "3", "3", "1"], { equations }).own, "algebra");
  const turned = equations.with ? equations.with(2, "12.8 - 0.2 I1 + 6 I2 = 0") : [...equations.slice(0, 2), "12.8 - 0.2 I1 + 6 I2 = 0", ...equations.slice(3)];
  // I4 = 3/2 I2, I5 = 61 − 20 I4, I3 = I4 − I5, I1 = I2 + I3: 12.8 = 0.2 (32.5 I2 − 61) − 6 I2, so I2 = 50.
  assert.equal(check(["1564", "50", "1514", "75", "-1439"], { equations: turned }).own, "equations");
  assert.equal(check(["1564", "50.1", "1514", "75", "-1439"], { equations: turned }).own, undefined);
});

test("a zero in a bare wire, all else right, is told as what it is", () => {
  for (const values of [["4", "2", "0", "3", "1"], ["4", "2", "0 A", "3.00", "1.00"]]) {
    const { verdict, slips, say } = check(values);
    assert.deepEqual([verdict, slips.map(({ slip, part }) => [slip, part]), say.key], ["wrong", [["nothing-in-wire", "W1"]], "nothing-in-wire"], values.join());
  }
  assert.notEqual(check(["4", "0", "2", "3", "1"]).say.key, "nothing-in-wire");
});
