/**
 * `<fading-help>`: how much help the reader wants. Terms of the junction and loop equations become fields, checked as
 * they are filled in, with the reason where one is wrong; what would give them away stays closed until they stand.
 */

import { HELPS } from "../page/fading.mjs";
import { findEquation } from "../page/terms.mjs";
import { equationInUnits } from "../laws/meaning.mjs";
import { setText } from "../page/prose.mjs";
import { speaking } from "../page/telling.mjs";
import page from "../sentences.mjs";
import sentences from "../help-sentences.mjs";
import { build } from "./build.mjs";
import { findExample } from "./page-state.mjs";
import { keepTyped, keptOf } from "./typed.mjs";
import { YourEquation } from "./your-equation.mjs";

const { say, tell } = speaking(page, sentences);
const giveAway = ["equations", "by-hand", "matrix", "currents", "checks"];

/** Terms in the order of the currents: what enters first would tell the signs. */
const inOrder = (terms, { branches }) => branches.flatMap((branch) => terms.filter(({ current }) => current === branch.current));

export class FadingHelp extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #answers;
  #opened = new Set();
  #yours = [];
  #shown = null;

  async connectedCallback() {
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.example = await findExample(this);
    if (signal.aborted || !this.example) return;
    this.article = this.closest("article");
    this.#answers ??= new Map(keptOf(this.localName));
    this.addEventListener("change", (event) => this.#choose(event.target.value), { signal });
    this.article.addEventListener("example-change", () => this.show(), { signal });
    addEventListener("popstate", () => this.#keep(), { signal });
    this.show();
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.#clear();
  }

  /** Show the equations with as many fields as the state says. */
  show() {
    const asked = this.example.state.help;
    const help = HELPS.includes(asked) ? asked : "";
    if (asked && !help && this.#shown === null) this.example.announce(say("help.note", { value: asked }));
    for (const radio of this.querySelectorAll("input")) radio.checked = radio.value === help;
    const written = help && `${help} ${this.example.worked.written.equations.map((each) => each.terms.map((term) => term.factor + term.origin + term.reason)).join("|")}`;
    if (this.#shown === written && this.#yours.every((each) => each.isConnected)) return;
    if (this.#shown?.split(" ")[0] !== help) this.#opened.clear();
    this.#shown = written;
    this.#clear();
    if (help) this.#yours = this.#places().map((place) => this.#makeYours(place, help));
    this.#closeSections();
    this.#showTold(help);
  }

  #showTold(help) {
    this.querySelector(".help-says")?.remove();
    if (!help) return;
    const told = build(["p", { class: "help-says" }, ...this.#tellHelp(help)]);
    if (this.#isFilled) told.append(" ", this.#makeEmptying());
    this.append(told);
  }

  get #isFilled() {
    return this.#yours.length > 0 && !this.#missing;
  }

  /** Who works a circuit a second time begins with empty fields. */
  #makeEmptying() {
    const button = build(["button", { type: "button", class: "quiet-button" }, say("help.empty")]);
    button.addEventListener("click", () => {
      this.#answers.clear();
      keepTyped(this.localName, null);
      this.#shown = null;
      this.show();
      this.example.announce(this.#tellHelp(this.example.state.help));
      this.#yours.find((each) => each.missing).focus();
    });
    return button;
  }

  /** What is the reader's now, with a link to the first of it that can be seen. */
  #tellHelp(help) {
    if (this.#isFilled) return tell("help.filled");
    const first = this.#yours.find((each) => each.missing && each.place.checkVisibility());
    if (!first) return tell(`help.told.${help || "worked"}`);
    return [...tell(`help.told.${help}`), " ", ...tell("help.begin", { place: this.#linkTo(first) })];
  }

  /** A link to an equation, named after its place. */
  #linkTo({ equation: { rule, origin }, place }, before = "") {
    const href = `#${place.id || place.getAttribute("aria-labelledby")}`;
    return ["a", { href }, ...setText(before + say(`equations.${rule}`, { name: origin }), this.example.worked.topology)];
  }

  #places() {
    return [...this.article.querySelectorAll("[data-section] :is(li[data-junction]:not(.left-out), .loop-walk[data-loop])")];
  }

  #makeYours(place, help) {
    const { worked } = this.example;
    const { junction, loop } = place.dataset;
    const equation = equationInUnits(findEquation(junction ? "junction" : "loop", junction ?? loop, worked.topology), worked.units);
    if (junction) equation.terms = inOrder(equation.terms, worked.topology);
    return new YourEquation({ place, equation, help, worked, answers: this.#answers, onChange: (says) => this.#onChange(says, place), onTyped: () => this.#keep() });
  }

  #keep() {
    if (this.#answers.size) keepTyped(this.localName, [...this.#answers]);
  }

  #onChange(says, place) {
    this.#keep();
    const before = this.#missing;
    this.#closeSections();
    const isDone = before && !this.#missing;
    if (isDone) place.append(build(["p", { class: "help-done" }, ...tell("help.go_on")]));
    this.example.announce(isDone ? `${says} ${say("help.done")}` : says);
  }

  #missing = 0;

  /** Sections that would give the terms away wait until they stand. */
  #closeSections() {
    this.#missing = this.#yours.reduce((sum, each) => sum + each.missing, 0);
    for (const item of this.article.querySelectorAll("li.left-out")) item.toggleAttribute("data-withheld", this.#missing > 0);
    for (const id of giveAway) {
      const section = this.article.querySelector(`[data-section="${id}"]`);
      if (!section) continue;
      const isClosed = this.#missing > 0 && !this.#opened.has(id);
      section.toggleAttribute("data-withheld", isClosed);
      if (section.previousElementSibling?.matches(".help-closed")) section.previousElementSibling.remove();
      if (isClosed) section.before(this.#makeNote(id));
    }
  }

  #makeNote(id) {
    const open = this.#yours.find((each) => each.missing);
    const term = this.#linkTo(open, `${open.next}, `);
    const note = build(["div", { class: "help-closed" }, ["p", {}, ...tell("help.closed", { count: this.#missing, term })], ["button", { type: "button", class: "quiet-button" }, say("help.open")]]);
    note.querySelector("a").addEventListener("click", (event) => {
      event.preventDefault();
      open.focus();
    });
    note.lastChild.addEventListener("click", () => {
      this.#opened.add(id);
      this.#closeSections();
      const heading = document.getElementById(id);
      heading?.setAttribute("tabindex", "-1");
      heading?.focus();
    });
    return note;
  }

  #choose(help) {
    this.example.change({ help }, () => this.#tellHelp(help));
  }

  #clear() {
    for (const each of this.#yours) each.remove();
    this.#yours = [];
    for (const note of this.article?.querySelectorAll(".help-closed, .help-done") ?? []) note.remove();
    for (const section of this.article?.querySelectorAll("[data-section][data-withheld], li.left-out") ?? []) section.removeAttribute("data-withheld");
  }
}
