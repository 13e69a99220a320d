import assert from "node:assert/strict";
import { test } from "node:test";
import { checkEquation } from "../../docs/assets/javascripts/laws/check-equation.mjs";
import { checkNumbers } from "../../docs/assets/javascripts/laws/check-numbers.mjs";
import { checkSet } from "../../docs/assets/javascripts/laws/check-set.mjs";
import { sentence } from "../../docs/assets/javascripts/laws/slip-words.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";
import { makeRandom, pick } from "../measure/random.mjs";

const link = findExample(loadRecords(), "link-wire");
const VERDICTS = new Set(["junction", "loop", "combination", "false", "unreadable", "right", "wrong"]);
const LONGEST_MS = 500;

const bits = [
  "I1", "I_2", "I₃", "I_{4}", "i5", "R1", "E2", "r1", "W1", "I9", "12", "0.2", "1,5", "4 700", "½", "10^-3", "²", "V", "Ω", "kΩ", "mA", "=", "=", "+", "-", "−", "*", "·", "/",
  "(", ")", "[", "}", " ", " ", "^", "e", "ε", "<b>", "</script>", "<img src=x onerror=alert(1)>", "&lt;", "{part}", "${1}", "__proto__", "constructor", "\u0000", "\u202e", "\ud83d", "😀", "\n", "'", '"', "`", "\\", "\\frac", "\\frac{", "}{", "\\mathrm{", "\\left(", "\\cdot", "\\,", "{,}", "$", "\\constructor", "NaN", "Infinity",
];

const make = (random) => Array.from({ length: Math.floor(random() * 14) }, () => pick(bits, random)).join("");
const noise = (random) => Array.from({ length: Math.floor(random() * 40) }, () => String.fromCharCode(Math.floor(random() * (random() < 0.8 ? 0x80 : 0x10000)))).join("");

/** Every text in a result that did not come from the engine's own words. */
function texts(value) {
  if (typeof value === "string") return [value];
  return value && typeof value === "object" ? Object.values(value).flatMap(texts) : [];
}

function look(found, text) {
  assert.ok(VERDICTS.has(found.verdict), text);
  for (const each of [...texts(found), sentence(found.say)]) assert.doesNotMatch(each, /[<>&\u0000\u202e]|script|onerror|undefined|NaN|\{/, `${text}: ${each}`);
  if (found.verdict === "unreadable" && found.at !== undefined) assert.ok(found.at >= 0 && found.at + found.length <= Math.max(`${text}`.length, 1), text);
}

test("ten thousand random equations: no hang, no error, no markup", () => {
  const random = makeRandom(5);
  for (let count = 0; count < 10000; count += 1) {
    const text = count % 4 ? make(random) : noise(random);
    const start = performance.now();
    look(checkEquation(link, text), text);
    assert.ok(performance.now() - start < LONGEST_MS, `${text} took ${performance.now() - start} ms`);
  }
});

test("two thousand random sets of numbers: no hang, no error, no markup", () => {
  const random = makeRandom(6);
  const number = () => pick(["0.42 A", "1/3", "-2", "", "420 mA", "<b>", "1,200", "1e400", "9".repeat(24), "1/0", "0", "0.000", "10^9 A", "3 V"], random);
  for (let count = 0; count < 2000; count += 1) {
    const values = Object.fromEntries([...link.unknowns, "__proto__", "<i>"].map((name) => [name, random() < 0.2 ? noise(random) : number()]));
    look(checkNumbers(link, values, { flip: [pick(["I1", "nobody", "<b>"], random)] }), JSON.stringify(values));
  }
});

test("texts made to be slow are not", () => {
  const hard = ["(".repeat(300), "1/".repeat(150), "9^9".repeat(80), "I1".repeat(150), "-".repeat(300), "I_".repeat(150), "1 000 000 000 000".repeat(15), `${"(1/3+".repeat(20)}I1${")".repeat(20)}=0`, "10^12*".repeat(45) + "I1=1", "1,000".repeat(60), "x".repeat(1e6)];
  for (const text of hard) {
    const start = performance.now();
    look(checkEquation(link, text), text);
    look(checkNumbers(link, { I1: text }), text);
    assert.ok(performance.now() - start < LONGEST_MS, `${text.slice(0, 20)} took ${performance.now() - start} ms`);
  }
});

test("a set of anything is judged without an error", () => {
  const random = makeRandom(8);
  for (let count = 0; count < 100; count += 1) {
    const { rows, independent, needed } = checkSet(link, Array.from({ length: 6 }, () => make(random)));
    assert.ok(rows.length === 6 && independent <= needed);
  }
});
