/**
 * The steps of a page in their order, read from its sections: each junction, each row of a loop and its equation, the
 * equation set, each line by hand, the matrix form, each answer, each check.
 *
 * A step has a name for the address that outlasts other choices: `c` for a junction, `L1.2` for the second row of a
 * loop, `L1` for its equation, `I2` for an answer. Words with a hyphen are no names of a circuit.
 */

import { setName, setText } from "../page/prose.mjs";
import { listed, speaking } from "../page/telling.mjs";
import { lightOf } from "../page/terms.mjs";
import page from "../sentences.mjs";
import sentences from "../step-sentences.mjs";
import { termsAt } from "./term-places.mjs";

const { say, tell } = speaking(page, sentences);

/**
 * @typedef {{name: string, section: string, shown: Element[], prompt: import("../page/saying.mjs").Tree[],
 *   light: import("./light.mjs").Light}} Step shown: what opens with it
 */

/**
 * @param {Element} article
 * @param {import("../laws/meaning.mjs").Worked} worked
 * @returns {Step[]}
 */
export function listSteps(article, worked) {
  const find = (section) => article.querySelector(`[data-section="${section}"]`);
  const readers = { junctions: readJunctions, loops: readLoops, equations: readWhole("equation-set", "set"), "by-hand": readLines, matrix: readWhole("matrix-form", "matrix"), currents: readAnswers, checks: readChecks };
  return Object.entries(readers).flatMap(([section, read]) => (find(section) ? read(find(section), worked.topology, worked.route).map((step) => ({ ...step, section })) : []));
}

function readJunctions(section) {
  return [...section.querySelectorAll("li[data-junction]")].map((item) => {
    const name = item.dataset.junction;
    const current = [...item.querySelectorAll("[data-current]")].map((each) => each.dataset.current);
    const key = item.classList.contains("left-out") ? "steps.left_out" : "steps.junction";
    return { name, shown: [item], prompt: tell(key, { name: setName(name, "point") }), light: { junction: [name], current } };
  });
}

function readLoops(section, topology) {
  return [...section.querySelectorAll(".loop-walk")].flatMap((walk) => {
    const name = walk.dataset.loop;
    const loop = setName(name, "loop");
    const rows = [...walk.querySelectorAll("table.walk tbody tr")];
    const around = [...walk.children].filter((each) => !each.matches(".equation, .set-repeats"));
    const open = rows.map((row, at) => ({
      name: `${name}.${at + 1}`,
      shown: at ? [row] : [...around, row],
      prompt: tell(`steps.${kindOf(row, topology)}`, { loop, part: setName(row.dataset.part, "part") }),
      light: lightRow(row, topology),
    }));
    const { steps } = topology.loops.find((each) => each.name === name);
    const rest = [...walk.querySelectorAll(":scope > :is(.equation, .set-repeats)")];
    return [...open, { name, shown: rest, prompt: tell("steps.equation", { loop }), light: { loop: [name], part: steps.map((step) => step.part.name), steps } }];
  });
}

/** A battery with internal resistance has two rows: the one with its emf, and the one with a current. */
function kindOf(row, topology) {
  if (topology.part[row.dataset.part]?.kind !== "battery") return "row";
  return row.querySelector(".term[data-current]") ? "internal" : "emf";
}

function lightRow(row, topology) {
  const found = termsAt(row, topology);
  return found ? lightOf(found.equation, found.terms) : {};
}

const readWhole = (name, key) => (section) => [{ name, shown: [...section.children], prompt: tell(`steps.${key}`), light: {} }];

function readLines(section, topology, route) {
  const lines = [...section.querySelectorAll(".route-line")];
  return lines.map((line, at) => ({
    name: `line-${at + 1}`,
    shown: at === lines.length - 1 ? [line, ...[...section.children].filter((each) => each.compareDocumentPosition(line) & Node.DOCUMENT_POSITION_PRECEDING)] : [line],
    prompt: tellTask(route.lines[at], route.lines, topology),
    light: { current: currentsOf(line.querySelector(".equation:last-of-type"), topology) },
  }));
}

/** What is to be done for a line: which current is written, goes, or is found. */
function tellTask({ action, uses, current, terms }, lines, topology) {
  const [use, ...others] = uses;
  const held = lines.filter((line) => uses.includes(line.number)).flatMap((line) => line.terms.map(([name]) => name));
  const gone = topology.branches.map((branch) => branch.current).filter((name) => held.includes(name) && !terms.some(([left]) => left === name));
  const isFound = ({ terms: [[, factor] = [], ...more] }) => factor?.toString() === "1" && !more.length;
  const alone = lines.some((line) => line.number === use && isFound(line)) ? "write_down" : "find_alone";
  const kind = action === "insert" && !others.length ? "order" : action === "find" && !others.length ? alone : action;
  const texts = { current, gone: listed(gone), lines: listed(uses.map((number) => say("hand.line", { number }))) };
  return tell(`steps.${kind}`, { use, ...Object.fromEntries(Object.entries(texts).map(([key, text]) => [key, setText(text, topology)])) });
}

/** The currents of a formula: those of its terms, and the one that stands alone before the equals sign. */
function currentsOf(formula, { branches }) {
  const alone = formula?.querySelector("math")?.firstElementChild?.firstElementChild?.textContent;
  const terms = [...(formula?.querySelectorAll("[data-current]") ?? [])].map((each) => each.dataset.current);
  return branches.map((branch) => branch.current).filter((current) => current === alone || terms.includes(current));
}

/** Each current with what its sign means; then all that follows from the currents. */
function readAnswers(section) {
  const rows = [...section.querySelectorAll("table.answers tbody tr")];
  if (!rows.length) return [];
  const answers = rows.map((row) => {
    const name = row.dataset.current;
    const meaning = section.querySelector(`.meanings > [data-current="${CSS.escape(name)}"]`);
    return { name, shown: [row, meaning].filter(Boolean), prompt: tell("steps.answer", { name: setName(name, "current") }), light: { current: [name] } };
  });
  const children = [...section.children];
  const rest = children.slice(children.findIndex((each) => each.matches("h3")));
  return [...answers, { name: "every-part", shown: rest, prompt: tell("steps.details"), light: {} }];
}

function readChecks(section) {
  return [...section.querySelectorAll(".checks > li")].map((item, at) => {
    const part = [...item.querySelectorAll(".name[data-part]")].map((each) => each.dataset.part);
    const place = part.length ? [] : [...item.querySelectorAll(".name[data-point], p:first-child > math > mi")].map((each) => each.textContent);
    const kind = item.querySelector(".equation") ? "check" : item.matches(".second-opinion") ? "check_again" : "check_power";
    return { name: `check-${at + 1}`, shown: [item], prompt: tell(`steps.${kind}`), light: { part, junction: place } };
  });
}

/** What a step says, in a few words for a screen reader. */
export function sayStep({ shown, section }, number, all) {
  const copy = (shown.findLast((each) => each.matches("tr, li, .equation")) ?? shown[0])?.cloneNode(true);
  for (const closed of copy?.querySelectorAll("[data-withheld], select, button:not(.term-key)") ?? []) closed.remove();
  const what = copy?.textContent ?? section;
  return say("steps.opened", { number, all, what: what.replace(/\s+/g, " ").trim().slice(0, 160) });
}
