/** Practice values on the page: what shows them beside the sections, and the buttons. Fetched when somebody asks for a set. */

import { takeSet } from "../laws/practice.mjs";
import { speaking } from "../page/telling.mjs";
import page from "../sentences.mjs";
import help from "../help-sentences.mjs";
import { build } from "./build.mjs";
import { SETS } from "./page-state.mjs";

const { say, tell } = speaking(page, help);

/** A number with its unit, as in a label ("4.7 kΩ") and in words ("4.7 kilohms"). */
const PRINTED = /[\d.]+(?=\u00a0\S)/g;
const SPOKEN = /[\d.]+ ([a-z]+?)s?(?=[ ,;.])/g;
const IN_A_TEXT = /\d\s*([kMmµunp]?([VAWFΩ]|ohms?)|\w*(volt|amp|watt|farad)s?)(?!\w)/;

export class PracticeValues {
  #taken = new Map();
  #shown = 0;

  /**
   * @param {import("./live-example.mjs").LiveExample} live
   * @param {AbortSignal} signal
   */
  constructor(live, signal) {
    this.live = live;
    live.addEventListener("example-change", () => this.#draw(), { signal });
  }

  /** The example with the values of a set. */
  take(set) {
    if (!this.#taken.has(set)) this.#taken.set(set, takeSet(this.live.printed, set));
    return this.#taken.get(set);
  }

  /** What a button asks for. */
  choose(what) {
    const { live } = this;
    const set = what === "next" ? (live.state.set % SETS) + 1 : 0;
    if (what === "help") live.change({ help: "all" }, say("help.told.all"));
    else live.change({ set }, set ? sayLine(set) : say("practice.own_told"));
  }

  #draw() {
    const { article, state, worked } = this.live;
    const used = document.activeElement;
    const find = (key) => article.querySelector(`[data-set=${key}]`);
    find("own").hidden = !state.set;
    find("help").hidden = !state.set || state.help === "all";
    if (used.hidden) find("next").focus({ preventScroll: true });
    const now = state.set ? tell("practice.now", { set: state.set, sets: SETS }) : [];
    article.querySelector(".set-now").replaceChildren(...[...now, ...(state.help === "all" ? [" ", say("help.told.all")] : [])].map((tree) => build(tree)));
    if (state.set === this.#shown) return;
    this.#shown = state.set;
    for (const [name, { text, internal_text: internal }] of Object.entries(worked.example.parts)) {
      const values = [text, internal].filter(Boolean).map((each) => each.split("\u00a0")[0]);
      const of = (places) => [...article.querySelectorAll(places)].filter((place) => place.dataset.part === name);
      for (const label of of(".figure-frame .label")) writeLabel(label, [...values]);
      for (const { nextSibling } of of(".in-words .name")) if (nextSibling?.data) writeWords(nextSibling, [...values]);
    }
    this.#writeLine(state.set);
  }

  /** One line at the question says which set it is, on paper too, and whose numbers the question has. */
  #writeLine(set) {
    const { article, printed } = this.live;
    article.querySelector(".set-line")?.remove();
    if (!set) return;
    const speaks = IN_A_TEXT.test(`${printed.title} ${printed.question}`) || printed.currents.some((current) => current.as_assumed === null);
    const line = build(["p", { class: "set-line" }, sayLine(set), ...(speaks ? [` ${say("practice.original")}`] : [])]);
    article.querySelector(".question").after(line);
  }
}

const sayLine = (set) => say("practice.line", { set, sets: SETS });

/** Every number of a label in its turn: the value, the internal resistance. */
function writeLabel(label, values) {
  for (const run of label.querySelectorAll("tspan")) run.textContent = run.textContent.replace(PRINTED, (old) => values.shift() ?? old);
}

function writeWords(text, values) {
  text.data = text.data.replace(SPOKEN, (old, unit) => (values.length ? `${values[0]} ${unit}${values.shift() === "1" ? "" : "s"}` : old));
}
