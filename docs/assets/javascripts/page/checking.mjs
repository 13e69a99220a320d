/** What is said of a student's own equations, one by one and as a set. The sentences about laws are in ../verdicts.mjs, those about slips in ../slips.mjs. */

import { checkEquation } from "../laws/check-equation.mjs";
import { findLaws } from "../laws/check-laws.mjs";
import { listSlips } from "../laws/check-nearest.mjs";
import { checkSet } from "../laws/check-set.mjs";
import { sentence, slipRow } from "../laws/slip-words.mjs";
import { setText } from "./prose.mjs";
import { joined, say, tell } from "./check-saying.mjs";

/**
 * @typedef {import("./saying.mjs").Tree} Tree
 * @typedef {{example: object, flip: string[], topology: import("../laws/circuit.mjs").Topology,
 *   equations: {rule: string, origin: string}[], base: string}} Place where a check stands: what it knows of the circuit,
 *   the equations of the page in their order, and the address of the page, empty on the page itself
 */

const MOST_TOLD = 3;
const AROUND = 18;

/**
 * What one equation is, and whether it goes into the set.
 * @param {string} typed
 * @param {string[]} set the equations so far
 * @param {Place} place
 * @returns {{says: Tree[], set: string[], verdict: string, spot: [number, number] | null}}
 */
export function answerEquation(typed, set, place) {
  const result = checkEquation(place.example, typed, place);
  const told = { verdict: result.verdict, set, spot: null };
  if (result.verdict === "unreadable") return { ...told, says: viewUnread(result, typed, place), spot: [result.at, result.at + result.length] };
  if (result.verdict === "false") return { ...told, says: viewFaults(result, place) };
  // What is true only by the values is no law, and would make a set look whole that is not.
  const { added, says } = result.doubts ? { added: set, says: [] } : addToSet(result.isOpen ? `${typed.trim()} = 0` : typed, set, place);
  return { ...told, set: added, says: [paragraph(strong(firstWord(result.say)), ...tellRest(result.say, place), " ", ...says), ...viewDoubts(result, place)] };
}

/**
 * Does once, ahead of time, what the first verdict would wait for, in pieces small enough to type between.
 * @returns {Generator<void>}
 */
export function* prepare(place) {
  yield* prepareLaws(place);
  const [loop, junction] = ["loop", "junction"].map((wanted) => place.example.equations.find(({ rule }) => rule === wanted)?.text ?? "");
  const tries = [junction, loop, `${junction} + 1`, `2 ${loop}`, `3 ${junction}`, `${loop} + 1 = 2`, loop.replace("−", "+")];
  for (const typed of tries) yield answerEquation(typed, [], place);
}

/** The laws, and of each all slips that it may suffer. */
export function* prepareLaws({ example, flip }) {
  const laws = findLaws(example, { flip });
  yield;
  for (const law of laws.laws) yield listSlips(law, laws);
}

const paragraph = (...trees) => ["p", {}, ...trees];
const strong = (text) => ["strong", {}, text];
const firstWord = (said) => sentence(said).split(/(?<=[:,.])/)[0];
const tellRest = (said, place) => setText(sentence(said).slice(firstWord(said).length), place.topology);

/** A sentence about a law or a slip, with its names set. */
export const tellSaid = (said, place) => setText(sentence(said), place.topology);

/** What could not be read, with the spot marked in what was typed. */
function viewUnread({ at, length, say: said }, typed, place) {
  return [paragraph(...tellSaid({ ...said, values: { ...said.values, example: say("check.equation.example") } }, place)), ...viewSpot(typed, at, length)];
}

/**
 * What was typed around a spot, the spot marked.
 * @returns {Tree[]}
 */
export function viewSpot(typed, at, length) {
  if (!typed.trim()) return [];
  const [start, end] = [Math.max(at - AROUND, 0), Math.min(at + Math.max(length, 0), at + AROUND)];
  const before = (start ? "…" : "") + typed.slice(start, at);
  const after = typed.slice(end, end + AROUND) + (typed.length > end + AROUND ? "…" : "");
  return [["p", { class: "as-typed" }, before, ["mark", {}, typed.slice(at, end) || "‸"], after]];
}

function viewFaults({ faults, say: said, near }, place) {
  if (!faults.length) return [paragraph(...tellSaid(said, place)), ...viewWays(near.length ? near : [{ origin: null }], place)];
  const told = faults.slice(0, MOST_TOLD);
  const ways = viewWays(told, place);
  if (told.length === 1) return [paragraph(strong(say("check.false")), " ", ...tellFault(told[0], place)), ...ways];
  const several = tellSaid({ key: told.length > 2 ? "more-faults" : "two-faults", values: {} }, place);
  return [paragraph(...several), ["ul", {}, ...told.map((fault) => ["li", {}, ...tellFault(fault, place)])], ...ways];
}

/** The term; where it stands on the other side of the student's equation, the sign that its kind has there. */
function tellFault({ say: said }, place) {
  const moved = said.values.moved && said.values.right && sentence(said).includes(said.values.right);
  const { there, thereRight } = said.values;
  if (moved && thereRight) {
    const word = (key) => sentence({ key, values: {} });
    const [sense, side] = [word(thereRight.startsWith("+") ? "sense.plus" : "sense.minus"), word(said.values.isRight ? "side.right" : "side.left")];
    const told = tellSaid({ key: said.key + (said.key.includes(".") ? "-moved" : ".moved"), values: { ...said.values, sense, side } }, place);
    if (told.length) return told;
  }
  const key = there && thereRight ? "moved.term" : "moved";
  return [...tellSaid(said, place), ...(moved ? [" ", ...tellSaid({ key, values: said.values }, place)] : [])];
}

function viewDoubts({ doubts = [], units, isOpen }, place) {
  const doubted = doubts.slice(0, 1).map(({ say: said }) => paragraph(...tellSaid(said, place)));
  return [...doubted, ...(isOpen ? [paragraph(sentence({ key: "needs-zero", values: {} }))] : []), ...(units ? [paragraph(sentence({ key: "other-units", values: units }))] : [])];
}

/** Links to the steps of the page that explain faults or broken laws, each once. */
export function viewWays(faults, place) {
  const ways = faults.flatMap((fault) => {
    const row = slipRow(fault.slip);
    const rule = fault.rule ?? row?.rule.split(" ")[0];
    const origins = fault.origins?.length ? fault.origins : [fault.origin];
    // Units are explained in one place, whatever the loop.
    return origins.map((origin) => findWay(origin && row?.section !== "equations" && { rule, origin }, row?.section ?? "loops", place));
  });
  const once = ways.filter(({ href }, at) => ways.findIndex((way) => way.href === href) === at);
  return [["p", { class: "see" }, `${say("check.see")} `, ...joined(once.map(({ href, text }) => ["a", { href }, ...text]), ", ")]];
}

/** Where on the page a law is explained, else its section. */
function findWay(law, section, { equations, base, topology }) {
  const at = law ? equations.findIndex(({ rule, origin }) => rule === law.rule && origin === law.origin) : -1;
  if (at < 0) return { href: `${base}#${section}`, text: tell(`check.see.${section}`) };
  return { href: `${base}#${law.rule}-${at + 1}`, text: setText(say(`check.see.${law.rule}`, { name: law.origin }), topology) };
}

let last = {};

/** A set as it is judged; the last one is kept, since a verdict and what is shown of the set both need it. */
function judgeSet(set, { example, flip }) {
  const key = JSON.stringify([set, flip]);
  if (last.example !== example || last.key !== key) last = { example, key, judged: checkSet(example, set, { flip }) };
  return last.judged;
}

/** A true equation joins the set unless it is one of it already. */
function addToSet(typed, set, place) {
  const judged = judgeSet([...set, typed], place).rows.at(-1);
  if (judged.say?.key === "no-law") return { added: set, says: tellSaid(judged.say, place) };
  if (judged.isNew) return { added: [...set, typed], says: tell("check.added", { number: set.length + 1 }) };
  const [{ number, factor } = {}] = judged.sum;
  const same = judged.sum.length === 1 && ["1", "-1"].includes(factor);
  if (same) return { added: set, says: tell("check.same", { number }) };
  return { added: [...set, typed], says: judged.say ? tellSaid(judged.say, place) : [] };
}

/**
 * The set so far: its equations, what each adds, and how many are still needed.
 * @param {string[]} set
 * @param {Place} place
 * @returns {{trees: Tree[], missing: number, holding: string[]}} holding: those that are true
 */
export function viewSet(set, place) {
  const { rows, independent, needed, missing } = judgeSet(set, place);
  const items = rows.map((row, at) => viewRow(row, set[at], at + 1));
  const holding = set.filter((_, at) => isTrue(rows[at]));
  const remove = set.length - holding.length > 1 ? [["button", { type: "button", "data-remove": "untrue" }, say("check.set.remove_untrue")]] : [];
  const count = missing > 0 ? tell("check.set.count", { independent, needed }) : tell("check.set.enough", { count: needed });
  return { trees: [["ol", {}, ...items], ...remove, ["p", { class: "set-count" }, ...count]], missing, holding };
}

const isTrue = ({ verdict }) => !["false", "unreadable"].includes(verdict);

function viewRow(row, typed, number) {
  const { isNew, say: said } = row;
  const note = isNew ? "" : !isTrue(row) ? tell("check.set.untrue") : said?.key === "no-new" ? tell("check.set.repeats", { number, ...said.values }) : said ? [sentence(said)] : "";
  const remove = ["button", { type: "button", "data-remove": String(number), "aria-label": say("check.set.remove_one", { number }) }, say("check.set.remove")];
  return ["li", { class: isNew ? "" : "adds-nothing" }, ["span", { class: "set-number" }, `(${number})`], ["span", { class: "as-typed" }, typed], remove, ...(note ? [["p", {}, ...note]] : [])];
}

/**
 * A hint at what the set still needs: a part in no equation yet, else a junction, else a loop.
 * @returns {Tree[]}
 */
export function viewHint(set, place) {
  const { topology } = place;
  const { next } = judgeSet(set, place);
  if (!next) return [];
  const { rule, origin, walk, open } = next;
  if (rule === "junction") return setText(say("check.hint.junction", { junction: origin }), topology);
  return setText(open.length ? say("check.hint.part", { part: open[0] }) : say("check.hint.loop", { first: walk[0], last: walk.at(-1) }), topology);
}
