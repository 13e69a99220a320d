/** The panel for choosing loops, as trees: what the set is worth, its loops, the other loops, and a walk of one's own. */

import { formatWalk, walkOf } from "../laws/choices.mjs";
import { stepStart } from "../laws/circuit.mjs";
import { memberKey } from "../laws/loop.mjs";
import { findSources } from "../laws/loop-sources.mjs";
import { setName, setText } from "../page/prose.mjs";
import { listed, speaking } from "../page/telling.mjs";
import { sumText } from "../page/setup.mjs";
import { loopWords } from "../page/words.mjs";
import sentences from "../choose-sentences.mjs";

const { say, tell } = speaking(sentences);

/**
 * @typedef {import("../page/saying.mjs").Tree} Tree
 * @typedef {import("../laws/meaning.mjs").Worked} Worked
 */

/** What the chosen loops are worth, in sentences. @param {Worked} worked @returns {Tree[][]} */
export function tellSet({ loopSet, topology }) {
  const { independent, missing, untouched, repeats } = loopSet;
  const whole = missing ? tell("choose.missing", { count: missing }) : independent === 1 ? tell("choose.enough_one") : tell("choose.enough", { independent });
  const repeated = repeats.map(({ name, sum }) => tell("choose.repeats", { name: setText(name, topology), sum: setText(sumText(sum), topology) }));
  const open = missing && untouched.length ? [tell("choose.untouched", { currents: setText(listed(untouched), topology) })] : [];
  return [whole, ...repeated, ...open];
}

/** What there is to say of a loop that was taken in. @param {Worked} worked @param {string} name @returns {Tree[]} */
export function tellTakenIn(worked, name) {
  const { topology, layout, loopSet } = worked;
  const loop = topology.loops.find((each) => each.name === name);
  const repeat = loopSet.repeats.find((each) => each.name === name);
  const set = (text) => setText(text, topology);
  if (repeat) return tell("choose.taken_in_old", { name: set(name), sum: set(sumText(repeat.sum)) });
  return [...tell("choose.taken_in", { name: set(name), way: set(loopWords(loop, layout)) }), " ", ...tellSet(worked)[0]];
}

/**
 * @param {Worked} worked
 * @param {string[]} lent the loops whose rings in the figure were drawn for others
 * @returns {Tree[]}
 */
export function viewSet(worked, lent) {
  const { topology, all } = worked;
  const chosen = topology.loops.map((loop) => memberKey(loop.steps, topology.branches));
  const others = all.filter((loop) => !chosen.includes(memberKey(loop.steps, topology.branches)));
  return [
    ["div", { class: "set-worth" }, ...tellSet(worked).map((sentence) => ["p", {}, ...sentence])],
    ["h4", {}, say("choose.in_set")],
    ["ul", { class: "loop-list" }, ...topology.loops.map((loop) => viewChosen(loop, worked))],
    ...(lent.length ? [["p", { class: "note" }, ...tell("choose.lent", { count: lent.length, names: setText(listed(lent), topology) })]] : []),
    ["h4", {}, say("choose.others")],
    others.length ? ["ul", { class: "loop-list" }, ...others.map((loop) => viewOther(loop, worked))] : ["p", {}, say("choose.no_others")],
  ];
}

function viewChosen(loop, { topology, layout, loopSet }) {
  const { name, steps } = loop;
  const key = memberKey(steps, topology.branches);
  const next = steps.length > 1 ? stepStart(steps[1]) : "";
  const isLast = topology.loops.length === 1;
  const repeat = loopSet.repeats.find((each) => each.name === name);
  return [
    "li",
    { "data-choice": name },
    ["p", {}, ["strong", {}, ...setText(name, topology)], ": ", ...setText(loopWords(loop, layout), topology), "."],
    ...(repeat ? [["p", { class: "note" }, ...tell("choose.nothing_new", { names: setText(listed(repeat.sum.map((each) => each.name)), topology) })]] : []),
    buttons(
      ["turn", `turn ${key}`, say("choose.turn")],
      next && ["start", `start ${key}`, ...tell("choose.start", { point: setName(next, "point") })],
      ["show", `show ${key}`, say("choose.show")],
      isLast ? null : ["out", `loop ${key}`, say("choose.take_out")],
    ),
    ...(isLast ? [["p", { class: "note" }, say("choose.last")]] : []),
  ];
}

function viewOther(loop, { topology, layout }) {
  const sources = findSources(loop, topology);
  const key = memberKey(loop.steps, topology.branches);
  const note = sources ? tell("choose.old", { names: setText(listed(sources), topology) }) : tell("choose.new");
  return [
    "li",
    { "data-other": loop.name, "data-walk": formatWalk(walkOf(loop)) },
    ["p", {}, ["strong", {}, setName(loop.name, "loop")], ": ", ...setText(loopWords(loop, layout), topology), "."],
    ["p", { class: sources ? "note" : "note new" }, ...note],
    buttons(["show", `show ${key}`, say("choose.show")], ["in", `loop ${key}`, say("choose.take_in")]),
  ];
}

/**
 * A walk of the reader's own, as far as it goes.
 * @param {import("../laws/walking.mjs").Walking} walking
 * @param {import("../laws/circuit.mjs").Topology} topology
 * @param {Tree[]} told where it stands, in words
 * @returns {Tree[]}
 */
export function viewWalking(walking, topology, told) {
  const { through, isClosed, next } = walking;
  const parts = next.map((part) => ["next", `next ${part}`, ...setText(part, topology)]);
  const undo = through.length ? ["back", "walk back", say("choose.back")] : null;
  return [
    ["p", {}, say("choose.how")],
    ["p", { class: "walk-so-far" }, ...told],
    ["p", { class: "next-parts" }, ...buttons(...parts).slice(2)],
    buttons(isClosed ? ["done", "walk done", say("choose.take_in")] : null, undo, ["leave", "walk leave", say("choose.leave")]),
  ];
}

/** One sentence on where the walk stands. */
export function tellWalking({ start, through, here, isClosed, next }, topology) {
  if (!through.length) return tell("choose.first");
  const parts = setText(through.join(", "), topology);
  if (!here) return tell("choose.which_way", { parts });
  const key = isClosed ? "closed" : next.length ? "so_far" : "stuck";
  return tell(`choose.${key}`, { start: setName(start, "point"), parts, here: setName(here, "point") });
}

/** A line of buttons: what each does, how the focus finds it again, and its label. */
function buttons(...list) {
  const made = list.filter(Boolean).map(([what, focus, ...label]) => {
    const part = what === "next" ? { "data-part-name": focus.slice(5) } : {};
    return ["button", { type: "button", class: "live-button", "data-choose": what, "data-focus": focus, ...part }, ...label];
  });
  return ["p", { class: "live-tools" }, ...made];
}
