/** `<check-equation>`: which term of my equation is wrong; and the true ones gathered into a set. */

import { listed, say } from "../page/check-saying.mjs";
import { setText } from "../page/prose.mjs";
import { wayInWords } from "../page/words.mjs";
import { build } from "./build.mjs";
import { CheckElement, bringIntoView, viewTitle } from "./check-element.mjs";
import { listenToKeys, viewKeys } from "./check-keys.mjs";

const field = {
  name: "equation", type: "text", inputmode: "text", enterkeyhint: "go", autocomplete: "off", autocapitalize: "off", autocorrect: "off", spellcheck: "false", maxlength: "400",
};

export class CheckEquation extends CheckElement {
  /** The equations of the set, as typed. */
  set = [];

  /** Those of them that are true; others are of earlier directions or values. */
  holding = [];

  /** What was checked last, where it was not true. */
  untrue = "";

  fetchLaws() {
    return import("../page/checking.mjs");
  }

  /** All that the student wrote down so far for the circuit as it is. */
  get equations() {
    return this.untrue ? [...this.holding, this.untrue] : this.holding;
  }

  /** The element's content as trees. */
  view(place) {
    const { isLesson } = this.source;
    const id = `${this.stem}-equation`;
    const form = ["form", { novalidate: "novalidate", autocomplete: "off" },
      ["label", { for: id }, say("check.equation.field")],
      ["div", { class: "field" }, ["input", { id, ...field }], ["button", { type: "submit" }, say("check.check")]],
      ["div", { role: "status", class: "verdict" }],
      viewKeys(place.topology.branches.map((branch) => branch.current)),
    ];
    const set = ["div", { class: "my-set" }, [isLesson ? "p" : "h4", { class: "check-title" }, say("check.set.title")], ["div", { class: "set" }, ["p", {}, say("check.set.none")]],
      ["button", { type: "button", class: "hint" }, say("check.set.hint")], ["p", { role: "status", class: "hint-text" }]];
    return [viewTitle("check.equation.title", "my-equations", isLesson), ["p", {}, say("check.equation.about", place.units)], ...(isLesson ? [viewArrows(place)] : []), form, set];
  }

  start(signal) {
    this.input = this.querySelector("input");
    listenToKeys(this.querySelector(".keys"), this.input, signal);
    this.querySelector(".my-set").addEventListener("click", (event) => this.#onClick(event), { signal });
    const isTyping = () => document.activeElement === this.input;
    globalThis.visualViewport?.addEventListener("resize", () => isTyping() && bringIntoView(this.form), { signal });
  }

  get typed() {
    return { text: this.input.value, set: this.set };
  }

  set typed({ text, set }) {
    this.input.value = text;
    this.set = set;
    if (set.length) this.follow();
  }

  check({ answerEquation, viewSet }) {
    const typed = this.input.value;
    const { says, set, verdict, spot } = answerEquation(typed, this.set, this.source.place());
    const isTrue = verdict !== "false" && verdict !== "unreadable";
    this.set = set;
    this.untrue = verdict === "false" ? typed : "";
    if (isTrue) this.input.select();
    else if (spot) this.input.setSelectionRange(...spot);
    this.#show(viewSet);
    this.tell(says, isTrue ? [] : [this.input.name]);
  }

  /** An arrow, a loop or a value changed: what was said of the equation is old, and the set is judged again. */
  async follow() {
    this.untrue = "";
    this.forget();
    const arrows = this.querySelector(".arrows");
    arrows?.replaceWith(build(viewArrows(this.source.place())));
    if (this.set.length) this.#show((await this.fetchLaws()).viewSet);
  }

  #show(viewSet) {
    const { trees, missing, holding } = this.set.length ? viewSet(this.set, this.source.place()) : { trees: [["p", {}, say("check.set.none")]], missing: 1, holding: [] };
    this.holding = holding;
    this.querySelector(".set").replaceChildren(...trees.map((tree) => build(tree)));
    this.querySelector(".hint").hidden = missing <= 0;
    this.querySelector(".hint-text").replaceChildren();
  }

  async #onClick(event) {
    const { target } = event;
    const { viewHint, viewSet } = await this.fetchLaws();
    if (target.closest(".hint")) {
      const text = this.querySelector(".hint-text");
      text.replaceChildren(...viewHint(this.set, this.source.place()).map((tree) => build(tree)));
      bringIntoView(text);
    }
    const removed = target.closest("[data-remove]")?.dataset.remove;
    if (removed) this.#remove(removed, viewSet);
  }

  /** @param {string} which the number of one, or "untrue" */
  #remove(which, viewSet) {
    this.set = which === "untrue" ? this.holding : this.set.filter((_, at) => at !== which - 1);
    this.#show(viewSet);
    this.keep();
    const next = this.querySelector(`[data-remove="${Math.min(which, this.set.length)}"]`) ?? this.input;
    next.focus({ preventScroll: true });
  }
}

/** In a lesson: which way every current is assumed to go. */
function viewArrows({ topology, layout }) {
  const items = topology.branches.map((branch) => ["li", {}, ...setText(`${branch.current}: ${wayInWords(branch, layout)} (${listed(branch.steps.map((step) => step.part.name))})`, topology)]);
  return ["details", { class: "arrows" }, ["summary", {}, say("directions.way")], ["ul", {}, ...items]];
}
