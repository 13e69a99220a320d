/**
 * The figures of the check engine over every demo and published circuit, as the table of DEVELOPERS.md:
 *
 *     node tests/measure/slips.mjs [--json] [--rounds 2] [--share 1]
 *
 * PYTHON names the interpreter that has the project's packages. --share 0.1 tries a tenth of the slips.
 */
import { measureRight, measureSlips } from "./equations.mjs";
import { loadRecords } from "./examples.mjs";
import { measureAccused, measureNumberSlips } from "./numbers.mjs";
import { makeRandom } from "./random.mjs";

const option = (name, usual) => (process.argv.includes(name) ? Number(process.argv[process.argv.indexOf(name) + 1]) : usual);

function add(sum, counts) {
  for (const [name, value] of Object.entries(counts)) {
    if (name !== "times") sum[name] = (sum[name] ?? 0) + value;
    else sum.times = [...(sum.times ?? []), ...value];
  }
  return sum;
}

function measure(records, { rounds, share }) {
  const figures = {};
  for (const { kind, example } of records) {
    const random = makeRandom(7);
    const sums = (figures[kind] ??= { equations: {}, right: {}, numbers: {}, accused: {} });
    add(sums.equations, measureSlips(example, random, share));
    add(sums.right, measureRight(example, random, Math.max(1, Math.round(4 * share))));
    add(sums.numbers, measureNumberSlips(example, random, rounds, share));
    add(sums.accused, measureAccused(example, random, Math.max(2, Math.round(20 * share))));
  }
  return Object.fromEntries(Object.entries(figures).map(([kind, sums]) => [kind, tell(sums)]));
}

function tell({ equations, right, numbers, accused }) {
  const of = (count, all) => (all ? count / all : 0);
  const quantile = (times, share) => [...times].sort((one, other) => one - other)[Math.floor((times.length - 1) * share)];
  return {
    slips: equations.slips,
    named: of(equations.one, equations.slips),
    amongTwo: of(equations.two, equations.slips),
    amongMore: of(equations.more, equations.slips),
    pointed: of(equations.pointed, equations.slips),
    missed: of(equations.missed + equations.misled, equations.slips),
    rightLaw: of(equations.law, equations.slips),
    laws: right.laws + right.sums,
    rightAccused: right.lawsWrong + right.sumsWrong,
    equationMs: quantile(equations.times, 0.99),
    numberSlips: numbers.slips,
    alone: numbers.alone,
    aloneNamed: numbers.aloneNamed,
    candidate: of(numbers.candidate, numbers.slips),
    oneName: of(numbers.one, numbers.slips),
    twoNames: of(numbers.two, numbers.slips),
    worded: of(numbers.worded, numbers.slips),
    silent: of(numbers.silent, numbers.slips),
    oneWrongName: of(numbers.oneWrong, numbers.slips),
    twoWrongNames: of(numbers.twoWrong, numbers.slips),
    rightNumbers: accused.right,
    rightNumbersAccused: accused.rightWrong,
    randomNumbers: accused.random,
    randomNamed: accused.randomNamed,
    digitNamed: of(accused.digitNamed, accused.digit),
    numbersMs: quantile(numbers.times, 0.99),
  };
}

const share = (value) => `${(100 * value).toFixed(1)} %`;
const count = (value) => `${value}`;
const time = (value) => `${value.toFixed(1)} ms`;

const lines = [
  ["**Equations**: single slips that are not true by chance", "slips", count],
  ["named, alone", "named", share],
  ["among two", "amongTwo", share],
  ["among three or four", "amongMore", share],
  ["the equation pointed to, not the term", "pointed", share],
  ["missed", "missed", share],
  ["right law among those named", "rightLaw", share],
  ["true equations, in any sense, side, order, scale, and sums of two", "laws", count],
  ["of these called wrong", "rightAccused", count],
  ["99 of 100 answered within", "equationMs", time],
  ["**Numbers**: single slips in sets of the student's own, three figures", "numberSlips", count],
  ["true slip among the candidates", "candidate", share],
  ["one name, the right one", "oneName", share],
  ["two names, the right one among them", "twoNames", share],
  ["named in the very words of the slip, not of another with the same effect", "worded", share],
  ["silent: only the broken laws", "silent", share],
  ["one name, a wrong one", "oneWrongName", share],
  ["two names, both wrong", "twoWrongNames", share],
  ["slips in circuits of one current, where nothing is named at three figures", "alone", count],
  ["of these named", "aloneNamed", count],
  ["right sets, two to five figures", "rightNumbers", count],
  ["of these called wrong", "rightNumbersAccused", count],
  ["random sets", "randomNumbers", count],
  ["of these given a name", "randomNamed", count],
  ["right sets with one digit miscopied, given a name", "digitNamed", share],
  ["99 of 100 answered within", "numbersMs", time],
];

function print({ demo, published }) {
  console.log("| | demo | published |\n| --- | ---: | ---: |");
  for (const [label, name, write] of lines) console.log(`| ${label} | ${write(demo[name])} | ${write(published[name])} |`);
}

const figures = measure(loadRecords(), { rounds: option("--rounds", 2), share: option("--share", 1) });
if (process.argv.includes("--json")) console.log(JSON.stringify(figures));
else print(figures);
