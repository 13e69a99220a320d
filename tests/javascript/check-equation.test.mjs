import assert from "node:assert/strict";
import { test } from "node:test";
import { checkEquation } from "../../docs/assets/javascripts/laws/check-equation.mjs";
import { sentence } from "../../docs/assets/javascripts/laws/slip-words.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";

const records = loadRecords();
const example = (name) => findExample(records, name);
const verdictOf = (name, text, choices) => {
  const { verdict, origin } = checkEquation(example(name), text, choices);
  return [verdict, origin];
};

const right = [
  ["link-wire", "I1=I2+I3", "junction", "c"],
  ["link-wire", "I2 + I3 - I1 = 0", "junction", "c"],
  ["link-wire", "2 I4 = 2 I3 + 2 I5", "junction", "e"],
    ["link-wire", "12.8 - 0.2 I1 - 6*I2 = 0", "loop", "L1"],
  ["link-wire", "-12,8 + 0,2 I_1 + 6 i2 = 0", "loop", "L1"],
  ["link-wire", "12800 = 200 I1 + 6000 I2", "loop", "L1"],
  ["link-wire", "12.8 V = 0.2 Ω I1 + 6 Ω I2", "loop", "L1"],
  ["link-wire", "E1 = r1 I1 + R1 I2", "loop", "L1"],
  ["link-wire", "3 I2 = 2 I4", "loop", "L2"],
  ["link-wire", "12.8 - 0.2 I1 - 4 I4 = 0", "loop", "E1.W1.R2"],
  ["link-wire", "12.8 - 0.2 (I2 + I3) - 6 I2 = 0", "combination", null],
  ["link-wire", "I1 - I2 = I4 - I5", "junction", "d"],
  ["link-wire", "12.8 - 0.2 I1 - 12 I2 + 4 I4 = 0", "combination", "L1 − L2"],
  ["link-wire", "I1 = 4 A", "combination", null],
  ["link-wire", "I1 = 4000 mA", "combination", null],
  ["frost-bridge", "9 - I1 * 1 = 3 I3 - I1", "combination", null],
  // OpenStax, University Physics Volume 2, sec. 10.3: the set, and the combinations on the way to I1.
  ["openstax-up2-fig-10-26", "I1 - I2 - I3 = 0", "junction", "b"],
  ["openstax-up2-fig-10-26", "3 I1 + 3 I2 = 24", "loop", "L1"],
  ["openstax-up2-fig-10-26", "3 I2 - 7 I3 = 29", "loop", "L2"],
  ["openstax-up2-fig-10-26", "6 I1 - 3 I3 = 24", "combination", null],
  ["openstax-up2-fig-10-26", "3 I1 + 7 I3 = -5", "loop", "R1.R3.R4.V2.V1"],
  ["openstax-up2-fig-10-26", "51 I1 = 153", "combination", null],
  // OpenStax, University Physics Volume 2, sec. 10.3, example 10.6.
  ["openstax-up2-example-10-6", "3 I1 - 8 I2 = -1.8", "loop", "L1"],
  ["openstax-up2-example-10-6", "8 I2 + I3 = 2.9", "loop", "L2"],
  // OpenStax, College Physics 2e, sec. 21.3, example 21.5.
  ["openstax-cp2-example-21-5", "-3 I2 + 18 - 6 I1 = 0", "loop", "L1"],
  ["openstax-cp2-example-21-5", "6 I1 + 2 I3 - 45 = 0", "loop", "L2"],
];

test("what is true is called by its name", () => {
  for (const [name, text, verdict, origin] of right) {
    const found = checkEquation(example(name), text);
    assert.equal(found.verdict, verdict, text);
    if (verdict !== "loop" || origin?.startsWith("L")) assert.equal(found.origin, origin, text);
    else assert.deepEqual([...found.walk].sort(), origin.split(".").sort(), text);
    assert.deepEqual(found.faults, [], text);
  }
});

test("turning an arrow turns what is right", () => {
  assert.deepEqual(verdictOf("link-wire", "-I1 = I2 + I3", { flip: ["I1"] }), ["junction", "c"]);
  assert.deepEqual(verdictOf("link-wire", "I1 = I2 + I3", { flip: ["I1"] })[0], "false");
  assert.deepEqual(verdictOf("link-wire", "12.8 + 0.2 I1 - 6 I2 = 0", { flip: ["I1", "nonsense"] }), ["loop", "L1"]);
});

const slips = [
  ["link-wire", "12.8 - 0.2 I1 + 6 I2 = 0", "sign", "R1", "I2", "L1"],
  ["link-wire", "12.8 = 0.2 I1 - 6 I2", "sign", "R1", "I2", "L1"],
  ["link-wire", "12.8 + 0.2 I1 - 6 I2 = 0", "sign", "E1", "I1", "L1"],
  ["link-wire", "-12.8 - 0.2 I1 - 6 I2 = 0", "emf sign", "E1", null, "L1"],
  ["link-wire", "12.8 - 6 I2 = 0", "missing", "E1", "I1", "L1"],
  ["link-wire", "0.2 I1 + 6 I2 = 0", "missing", "E1", null, "L1"],
  ["link-wire", "12.8 - 0.2 I1 - 6 I2 - 4 I4 = 0", "extra", "R2", "I4", "L1"],
  ["link-wire", "12.8 - 0.2 I1 - 4 I2 = 0", "value", "R1", "I2", "L1"],
  ["link-wire", "12.8 - 0.2 I1 - 5.5 I2 = 0", "value", "R1", "I2", "L1"],
  ["link-wire", "12.8 - 0.2 I1 - 6000 I2 = 0", "value", "R1", "I2", "L1"],
  ["link-wire", "25.6 - 0.4 I1 + 12 I2 = 0", "sign", "R1", "I2", "L1"],
  ["link-wire", "I1 = I2 - I3", "sign", null, "I3", "c"],
  ["link-wire", "I4 = I5", "missing", null, "I3", "e"],
  ["frost-bridge", "E1 - R3 I3 + R5 I5 - R2 I2 - R1 I1 = 0", "extra", "R1", "I1", null],
];

test("the slip is among those named, and nearest first where it is named alone", () => {
  for (const [name, text, ...slip] of slips) {
    const { verdict, faults } = checkEquation(example(name), text);
    assert.equal(verdict, "false", text);
    const told = faults.map(({ kind, part, current, origin }) => [kind, part, current, slip[3] === null ? null : origin]);
    assert.ok(told.some((each) => each.join() === slip.join()), `${text}: ${JSON.stringify(told)}`);
  }
});

test("kΩ beside A in one row is a prefix, the same units throughout are not", () => {
  const bridge = example("frost-bridge");
  const loop = bridge.equations.find(({ rule, right: emf }) => rule === "loop" && emf !== "0");
  const row = (factor, emf) => `${loop.coefficients.map((value, at) => `(${value})/${factor} ${bridge.unknowns[at]}`).join(" + ")} = ${loop.right}/${emf}`;
  assert.equal(checkEquation(bridge, row(1, 1)).verdict, "loop");
  assert.equal(checkEquation(bridge, row(1000, 1)).verdict, "loop");
  const [fault] = checkEquation(bridge, row(1, 1000000)).faults;
  assert.deepEqual([fault.kind, fault.slip], ["value", "prefix-of-all"]);
});

test("one sign for all resistors is no slip where the loop has one sign, and is one where it has both", () => {
  const slipsOf = (text) => checkEquation(example("frost-bridge"), text).faults.map(({ slip }) => slip);
  assert.deepEqual(slipsOf("-9 - 3 I1 - I3 = 0"), ["emf-sign"]);
  assert.ok(slipsOf("-3 I1 - 3 I5 - 2 I2 = 0").includes("all-minus"));
});

test("what enters a junction is said to enter it, whichever way round the equation is written", () => {
  const say = (text, flip) => sentence(checkEquation(example("link-wire"), text, { flip }).say);
  const sign = "I3 leaves junction c. With plus for what enters, its term is −\u00a0I3, not +\u00a0I3.";
  for (const text of ["I1 = I2 - I3", "I2 - I3 = I1", "I1 - I2 + I3 = 0", "I2 - I3 - I1 = 0"]) assert.equal(say(text), sign, text);
  const missing = "I3 meets junction c too. With plus for what enters, −\u00a0I3 is missing.";
  for (const text of ["I1 = I2", "I2 = I1"]) assert.equal(say(text), missing, text);
  for (const text of ["I4 = I1 + I5", "I1 + I5 = I4"]) assert.match(say(text, ["I2", "I3"]), /^I2 meets junction d too. With plus for what enters, −\u00a0I2 is missing/, text);
});

const given = [["bilge-pump-two-banks", "E1 = 12.6"], ["bilge-pump-two-banks", "E1 - E2 = 1.2"], ["bilge-pump-two-banks", "R1 = 4"], ["link-wire", "E1 = 12.8"], ["link-wire", "R1 = 6000 mΩ + 0"], ["frost-bridge", "R1 = 3"], ["frost-bridge", "R1 = 3000"]];

test("what is true of the given values alone is not called untrue", () => {
  for (const [name, text] of given) {
    const { verdict, faults, say } = checkEquation(example(name), text);
    assert.deepEqual([verdict, faults], ["unreadable", []], text);
    assert.match(sentence(say), /^(True, but no current|Both sides are the same)/, text);
  }
});

const untrue = [
  ["link-wire", "12.8 = 12.2", "only-emfs", "E1, E2"], ["link-wire", "12.8 - 12.2 = 0", "only-emfs", "E1, E2"], ["link-wire", "12800 mV = 12200 mV", "only-emfs", "E1, E2"],
  ["bilge-pump-two-banks", "E1 = E2", "only-emfs", "E1, E2"], ["bilge-pump-two-banks", "R1 = 5", "no-current"], ["link-wire", "5 = 7", "no-current"], ["link-wire", "0 I1 = 3", "no-current"],
];

test("currents that cancel are currents all the same", () => {
  assert.equal(checkEquation(example("link-wire"), "E1 + I1 = 12.8 + I1").say.key, "says-nothing");
  assert.notEqual(checkEquation(example("link-wire"), "I1 - 24 = I1").say.key, "no-current");
});

test("what is untrue and has no current is laid beside no law by scaling, and no current is named", () => {
  for (const [name, text, key, parts] of untrue) {
    const { verdict, faults, say } = checkEquation(example(name), text);
    assert.deepEqual([verdict, faults, say.key, say.values.parts], ["false", [], key, parts], text);
    assert.doesNotMatch(sentence(say), /I\d|[{}]|undefined/, text);
  }
});

test("what it says is a whole sentence, in the student's own sense of walking", () => {
  const say = (text) => sentence(checkEquation(example("link-wire"), text).say);
  assert.equal(say("12.8 - 0.2 I1 + 6 I2 = 0"), "You go through R1 along I2, so the potential drops there: −\u00a06\u00a0I2, not +\u00a06\u00a0I2.");
  assert.equal(say("-12.8 + 0.2 I1 - 6 I2 = 0"), "You go through R1 against I2, so the potential rises there: +\u00a06\u00a0I2, not −\u00a06\u00a0I2.");
  assert.equal(say("12.8 = 0.2 I1 - 6 I2"), "You go through R1 along I2, so the potential drops there: −\u00a06\u00a0I2, not +\u00a06\u00a0I2.");
  assert.equal(say("0.2 I1 - 6 I2 = 12.8"), say("12.8 = 0.2 I1 - 6 I2"));
  assert.equal(say("I1 = I2 - I3"), "I3 leaves junction c. With plus for what enters, its term is −\u00a0I3, not +\u00a0I3.");
  assert.equal(say("12.8 - 0.2 I1 - 6 I2 - 4 I4 = 0"), "R2 is not on this loop (L1): −\u00a04\u00a0I4 does not belong in its equation.");
  assert.equal(say("12.8 - 6 I2 = 0"), "The internal resistance of E1 lies on this loop too: −\u00a00.2\u00a0I1 is missing.");
});

test("everything it can say of a slip has its places filled", () => {
  for (const { example: each } of records.slice(0, 12)) {
    for (const { coefficients, right: emf } of each.equations) {
      const texts = coefficients.map((_, turned) => `${coefficients.map((value, at) => `${at === turned ? "-" : ""}(${value}) ${each.unknowns[at]}`).join(" + ")} = ${emf}`);
      for (const text of [...texts, ...coefficients.map((__, at) => `${texts[0]} + ${each.unknowns[at]}`)]) {
        for (const { say } of checkEquation(each, text).faults) assert.doesNotMatch(sentence(say), /^$|[{}]|undefined|null| {2}|, {0,1}\.$/, `${each.address}: ${text}`);
      }
    }
  }
});

test("a single emf and the resistor terms beside it do not fit, and which of them to turn is left open", () => {
  for (const text of ["9 = -3 I1 - I3", "-9 = 3 I1 + I3", "9 + 3 I1 + I3 = 0"]) {
    const { faults } = checkEquation(example("frost-bridge"), text);
    assert.deepEqual(faults.map(({ slip }) => slip), ["emf-sign"]);
    assert.match(sentence(faults[0].say), /the emf of E1 has the wrong sign: turn its sign, or that of every resistor term\./);
  }
  const [{ say }] = checkEquation(example("bilge-pump-two-banks"), "12.6 + 11.4 - 0.1 I1 + 0.2 I2 = 0").faults;
  assert.match(sentence(say), /^You go through E2 from plus to minus/);
});

test("a law that an equation is near is told with its kind", () => {
  const told = (name, text) => sentence(checkEquation(example(name), text).say);
  assert.match(told("frost-bridge", "I1 + I2 = I3"), /the equations of junction c and of junction e, but/);
  assert.match(told("alarm-capacitor", "9 = 3000 I2 - 6 I3"), /the currents of loop L2: check each value, its prefix and its sign\.$/);
});

test("where nothing is near nothing is named, and a question is asked", () => {
  const { verdict, origin, faults, say } = checkEquation(example("link-wire"), "99 I2 + 17 I4 + I5 = 3");
  assert.deepEqual([verdict, origin, faults, say.key], ["false", null, [], "unrelated"]);
});

test("two laws that are equally near are both named, and more are none", () => {
  const near = (name, text) => {
    const { say, near: laws } = checkEquation(example(name), text);
    return [say.key, laws.map(({ walk, origin }) => walk.join(".") || origin)];
  };
  assert.deepEqual(near("link-wire", "12.8 = 0"), ["only-emfs.both", ["E1.R1", "E1.W1.R2"]]);
  assert.deepEqual(near("link-wire", "-12.2 = 0"), ["only-emfs.both", ["R2.E2", "E2.W1.R1"]]);
  assert.deepEqual(near("frost-bridge", "9 = 0"), ["only-emfs.several", []]);
  assert.deepEqual(near("link-wire", "12.8 - 0.3 I1 - 7 I2 = 0"), ["same-currents", ["E1.R1"]]);
  assert.match(sentence(checkEquation(example("link-wire"), "12.8 = 0").say), /the loop L1 and of the loop E1, W1, R2; .* E1, R1, or those of E1, R2\.$/);
});

test("a current alone beside a number is an answer and no law, a resistance of one ohm is", () => {
  const { say } = checkEquation(example("bow-lamp"), "I1 = 2");
  assert.deepEqual([say.key, verdictOf("bow-lamp", "6 I1 = 12")[0], verdictOf("bow-lamp", "12 = 6 I1")[0]], ["is-answer", "loop", "loop"]);
  const made = structuredClone(example("bow-lamp"));
  assert.equal(checkEquation(made, "-I1 = -2").say.key, "is-answer");
});

test("a number that is not exactly the answer may be the answer rounded: it is no law, and not called untrue", () => {
  for (const [name, text] of [["neutral-wire", "I1 = 2.94 A"], ["bow-lamp", "I1 = 1.99"], ["link-wire", "-I1 = 4"]]) {
    const { verdict, say } = checkEquation(example(name), text);
    assert.deepEqual([verdict, say.key], ["unreadable", "no-law"], text);
  }
  // With a resistor of one ohm it may be a loop in which something is missing.
  assert.equal(checkEquation(example("kuphaldt-two-batteries"), "I_3 = 7").faults[0].kind, "missing");
});

test("two junctions with one equation are told once, and what does not belong is told as it stands", () => {
  const faults = checkEquation(example("bilge-pump-two-banks"), "I1 + I2 + I3 = 0").faults;
  assert.deepEqual(faults.map(({ current, origin }) => [current, origin]), [["I3", "c"]]);
  const say = (text) => sentence(checkEquation(example("frost-bridge"), text).say);
  assert.equal(say("3 I1 + 3 I5 = 2 I2 + 1"), "+\u00a01 does not belong in the equation of L2.");
  assert.equal(say("I6 = I1 + I2 + I5"), "I5 does not meet junction c: +\u00a0I5 does not belong there.");
});

test("of a long sum only that it is one is said", () => {
  const { say } = checkEquation(example("link-wire"), "13 - 0.2 I1 - 0.2 I5 - 4 I4 - I1 + I2 + I3 + I4 - I3 - I5 + 12 = 0");
  assert.equal(say.key, "unrelated");
  const long = checkEquation(example("link-wire"), "12.8 - 0.2 I1 - 6 I2 + I1 - I2 - I3 + 6 I2 - 4 I4 + I3 + I5 - I4 = 0");
  assert.equal(sentence(long.say), "True: a combination of several equations of the page.");
});

test("a term of nothing is doubted, not condemned", () => {
  const idle = example("bypassed-lamp");
  const zero = idle.currents.find(({ exact }) => exact === "0").name;
  const loop = idle.equations.find(({ rule, coefficients, right: emf }) => rule === "loop" && emf !== "0" && coefficients[idle.unknowns.indexOf(zero)] !== "0");
  const text = `${loop.coefficients.map((value, at) => `${idle.unknowns[at] === zero ? "-" : ""}(${value}) ${idle.unknowns[at]}`).join(" + ")} = ${loop.right}`;
  const { verdict, faults, doubts } = checkEquation(idle, text);
  assert.deepEqual([verdict, faults, doubts[0].kind, doubts[0].current], ["combination", [], "sign", zero]);
});

test("what only a zero makes true is no law, whatever was put before it", () => {
  const balanced = example("tank-gauge-bridge");
  const verdictOf = (text) => checkEquation(balanced, text).say.key;
  for (const text of ["1 I2 = 2 I3 + I6", "3 I4 - 6 I5 + 2 I6 = 0", "12 = 1 I2 + 3 I4 + 1 I6", "5 I2 = 5 I4"]) assert.equal(verdictOf(text), "true-only-here", text);
  // One law put into another is none of these.
  for (const text of ["12 = 4 I2 - 3 I6", "I2 + I3 = I4 + I5"]) assert.match(verdictOf(text), /^is-/, text);
  assert.match(sentence(checkEquation(balanced, "1 I2 = 2 I3 + I6").say), /^True only by chance: with these values I6 is zero\. No/);
});

const silent = [["I1 = I1", "says-nothing"], ["12 - 4 I1", "no-equals"], ["0 = 0", "says-nothing"], [undefined, "empty"], [null, "empty"], [12, "no-equals"]];

test("what says nothing is not judged", () => {
  for (const [text, key] of silent) {
    const { verdict, say } = checkEquation(example("link-wire"), text);
    assert.deepEqual([verdict, say.key], ["unreadable", key], `${text}`);
  }
});

test("a left side alone is taken as equal to zero where that is a law", () => {
  assert.deepEqual(verdictOf("link-wire", "12.8 - 0.2 I1 - 6 I2"), ["loop", "L1"]);
});

test("a battery or a branch walked the other way is named, as the one whose terms come later", () => {
  const told = (name, text) => checkEquation(findExample(records, name), text).faults.map((fault) => `${fault.slip} ${fault.kind}: ${sentence(fault.say)}`);
  const battery = (part) => [`battery-turned sign: Both terms of ${part} have the wrong sign: you go through it from plus to minus.`];
  assert.deepEqual(told("bilge-pump-two-banks", "12.6-0.1*I1+11.4-0.2*I2=0"), battery("E2"));
  assert.deepEqual(told("bilge-pump-two-banks", "11.4-0.2*I2 + 12.6-0.1*I1=0"), battery("E1"));
  const branch = (parts) => [`branch-turned sign: All terms of ${parts} have the wrong sign: walking on round the loop, you go through them the other way.`];
  assert.deepEqual(told("three-banks", "13-2I3+6-I2=0"), branch("E2, R2"));
  assert.deepEqual(told("three-banks", "6 - I2 + 13 = 2I3"), branch("R3, E3"));
});

test("an emf or all resistances with a wrong prefix are never true in other units", () => {
  const says = (address, text) => checkEquation(example(address), text);
  const cases = [
    ["bilge-pump-two-banks", "12600 = 0.1 I1 + 4 I3", "prefix", "E1"], ["link-wire", "12800 = 0.2 I1 + 6 I2", "prefix", "E1"],
    ["frost-bridge", "0.009 = 3 I1 + I3", "prefix", "E1"], ["link-wire", "12.8 = 0.2k I1 + 6k I2", "prefix-of-all", null],
    ["link-wire", "12.8 = 0.2k I1 + 6 I2", "prefix", "E1"],
  ];
  for (const [address, text, slip, part] of cases) {
    const { verdict, faults: [fault] } = says(address, text);
    assert.deepEqual([verdict, fault.slip, fault.part], ["false", slip, part], text);
  }
  assert.match(sentence(says("link-wire", "12.8 = 0.2k I1 + 6 I2").say), /^The value of r of E1 has another prefix/);
  assert.equal(sentence(says("link-wire", "12.8 - 6 I1 - 0.2 I2 = 0").say), "The values of r of E1, R1 have changed places.");
  for (const [address, text] of [["bilge-pump-two-banks", "12600 mV = 0.1 I1 + 4 I3"], ["frost-bridge", "9 - 3000 I1 - 1000 I3 = 0"]]) assert.equal(says(address, text).verdict, "loop", text);
});

const likelier = [
  ["pontoon-lamps", "6 I4 = 5 I5", "missing-resistor"],
  ["three-banks", "12 - 3 I1 + I2 + 6 = 0", "emf-sign"],
  // 13 + 6 = 13 - 6 + 12, but no emf of 12 V was typed.
  ["three-banks", "13 - 2 I3 + I2 + 6 = 0", "emf-sign"],
  ["three-banks", "19 - 2 I3 + I2 = 0", "emf-sign"],
  ["three-banks", "13 - 2 I3 + I2 - 6 + 12 = 0", "extra-emf"],
  // R5 has 3 ohms too, but 3 I1 is the term of R1.
  ["frost-bridge", "9 - 3 I1 - I3 - 2 I2 = 0", "extra-resistor"],
];

for (const [address, text, slip] of likelier) {
  test(`what only a sum, or another part, allows is not told beside a slip that was typed: ${text}`, () => {
    assert.deepEqual(checkEquation(example(address), text).faults.map((fault) => fault.slip), [slip]);
  });
}

test("a resistance without its current is told by its part, in whichever form it was typed", () => {
  for (const text of ["12 = I1 + 4", "12 - I1 = 4", "12 - R1 I1 - R2 = 0", "4 + I1 = 12"]) {
    const [fault, ...more] = checkEquation(example("pontoon-lamps"), text).faults;
    assert.deepEqual([fault.slip, fault.part, more.length], ["missing-factor", "R2", 0], text);
  }
});

test("who writes what is said of a resistance without its current has the law, on either side of the equals sign", () => {
  for (const [name, text, number, flip = []] of [
    ["link-wire", "6 I2 = #", "4"],
    ["link-wire", "# = 6 I2", "4"],
    ["link-wire", "12.2 - 0.2 I5 = #", "4"],
    ["link-wire", "12.8 = # + 6 I2", "0.2"],
    ["link-wire", "12.8 - # - 6 I2 = 0", "0.2"],
    ["three-banks", "13 - 2 I3 - 6 = #", "1", ["I2"]],
    // In kΩ and mA a resistance is a number of other size than a voltage.
    ["frost-bridge", "9 = 3 I1 + #", "1"],
    ["frost-bridge", "-9 + # + I3 = 0", "3"],
  ]) {
    const [{ slip, say }] = checkEquation(example(name), text.replace("#", number), { flip }).faults;
    assert.deepEqual([slip, say.values.written], ["missing-factor", number], text);
    assert.equal(checkEquation(example(name), text.replace("#", say.values.right), { flip }).verdict, "loop", `${text} with ${say.values.right}`);
  }
});

test("a resistance without its current is no law where the numbers happen to agree", () => {
  const { verdict, say, doubts } = checkEquation(example("pontoon-lamps"), "0 = I3 + 6 - 4 I2");
  assert.deepEqual([verdict, say.key, doubts[0].slip, doubts[0].part], ["combination", "true-by-values", "missing-factor", "R4"]);
});

test("a bare wire has a current, and no term in a loop", () => {
  const slipOf = (text) => checkEquation(example("link-wire"), text).faults.map(({ slip, part }) => [slip, part]);
  assert.deepEqual(slipOf("I3 = 0"), [["nothing-in-wire", "W1"]]);
  assert.deepEqual(slipOf("0 = -I3"), [["nothing-in-wire", "W1"]]);
  assert.deepEqual(slipOf("6 I2 - I3 - 4 I4 = 0"), [["extra-wire", "W1"]]);
  assert.deepEqual(slipOf("6 I2 + 3 I3 - 4 I4 = 0"), [["extra-wire", "W1"]]);
  // Where there is a resistance, no current is a number like any other.
  assert.equal(checkEquation(example("link-wire"), "I2 = 0").say.key, "no-law");
});

test("a current that was put in from a junction is told with the loop and the junction, right or wrong", () => {
  for (const [name, text, loop, where, current, right, written = right] of [
    ["link-wire", "12.8 - 0.2 (I2 + I3) - 6 I2 = 0", "L1", "c", "I1", "I2 + I3"],
    ["link-wire", "12.8 - 0.2 (I2 - I3) - 6 I2 = 0", "L1", "c", "I1", "I2 + I3", "I2 − I3"],
    ["bilge-pump-two-banks", "12.6 = 0.1 I1 + 4 (I1 + I2)", "E1, R1", "c", "I3", "I1 + I2"],
    ["bilge-pump-two-banks", "12.6 = 0.1 I1 + 4 I1 - 4 I2", "E1, R1", "c", "I3", "I1 + I2", "I1 − I2"],
    ["frost-bridge", "9 - 3 I1 - I1 - I5 = 0", "L1", "e", "I3", "I1 − I5", "I1 + I5"],
    ["three-banks", "12 - 3 (I2 + I3) + I2 - 6 = 0", "L1", "c", "I1", "−I2 − I3", "I2 + I3"],
  ]) {
    const { verdict, say, faults } = checkEquation(example(name), text);
    const told = faults[0]?.say ?? say;
    assert.deepEqual([verdict, faults.length, told.key], right === written ? ["combination", 0, "is-put-in"] : ["false", 1, "put-in-sign"], text);
    const [asRight, asWritten] = [right, written].map((sum) => sum.replaceAll(" ", "\u00a0"));
    assert.deepEqual(told.values, { loop, where, current, right: asRight, written: asWritten }, text);
  }
});

test("what a current that is zero hides is told, and goes into no set", () => {
  for (const [text, slip] of [
    ["12 - 0.2 kΩ I2 - 3 I3 = 0", "prefix"],
    ["12 - 2 I2 - 3 I3 = 0", "wrong-value"],
    ["14 - 0.5 I1 - 12 + 2 I2 = 0", "wrong-value"],
    ["I1 + 2 I2 = I3", "current-twice"],
    ["12 + 0.2 I2 - 3 I3 = 0", "resistor-sign"],
    ["I1 = I3", "missing-current"],
  ]) {
    const { say, doubts } = checkEquation(example("floating-bank"), text);
    assert.deepEqual([say.key, doubts[0].slip], ["true-only-here", slip], text);
  }
  // The same currents put together from laws.
  for (const text of ["14 - 0.5 I1 = 3 (I1 + I2)", "26 - 0.5 I1 - 0.2 I2 - 6 I3 = 0", "I1 = I3 - I2"]) {
    assert.match(checkEquation(example("floating-bank"), text).say.key, /^is-/, text);
  }
  assert.equal(checkEquation(example("bypassed-lamp"), "24 = 8 I1 + 6 I2").say.key, "is-long-sum");
});

test("a right number is the answer, also where it is the value of a resistor", () => {
  for (const text of ["I2 = 3", "I2=3 A", "3 = I2"]) {
    const { say, doubts } = checkEquation(example("three-banks"), text, { flip: ["I2"] });
    assert.deepEqual([say.key, doubts], ["is-answer", undefined], text);
  }
});
