/**
 * `<step-reader>`: a way of reading in which the solution opens one step at a time, forward and back. What a step is
 * about is lit in the figure, and a question stands before each, to be answered before it opens.
 *
 * What is not open yet is hidden, its headings say how many steps are inside, and the address carries the step.
 */

import { setText } from "../page/prose.mjs";
import { speaking } from "../page/telling.mjs";
import sentences from "../step-sentences.mjs";
import { build } from "./build.mjs";
import { bringIntoRoom, reserveRoom } from "./clear-view.mjs";
import { setLight } from "./light.mjs";
import { findExample } from "./page-state.mjs";
import { listSteps, sayStep } from "./step-list.mjs";

const { say } = speaking(sentences);

const START = "start";

export class StepReader extends (globalThis.HTMLElement ?? Object) {
  #abort;
  #hidden = new Set();
  #before = null;
  #at = "";
  #hasPinned = false;

  async connectedCallback() {
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    this.example = await findExample(this);
    if (signal.aborted || !this.example) return;
    this.article = this.closest("article");
    this.starter = this.querySelector(".step-start");
    this.starter.addEventListener("click", () => this.#go(0, this.next), { signal });
    this.bar = this.#makeBar();
    this.article.append(this.bar);
    this.article.addEventListener("example-change", () => this.show(), { signal });
    addEventListener("popstate", () => this.#onHistory(), { signal });
    addEventListener("resize", () => this.#keepClear(), { signal });
    document.addEventListener("focusin", (event) => !this.bar.hidden && bringIntoRoom(event.target), { signal });
    this.show();
    this.#begin();
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.bar?.remove();
    this.#clear();
    reserveRoom(undefined, 0);
    document.body.style.paddingBottom = "";
    document.documentElement.style.removeProperty("--step-bar");
  }

  /** How many steps are open; null where the whole page is shown. */
  get opened() {
    const { step } = this.example.state;
    if (!step || step === START) return step ? 0 : null;
    const at = this.steps.findIndex((each) => each.name === step);
    if (at >= 0) return at + 1;
    return this.#before === null ? null : Math.min(this.#before, this.steps.length);
  }

  /** Show the page as its state says: whole, or open as far as the step. */
  show() {
    if (!this.example.state.step && this.#before === null) return;
    this.steps = listSteps(this.article, this.example.worked);
    this.#clear();
    const { opened } = this;
    const { step } = this.example.state;
    if (step && opened === null) this.example.announce(say("steps.note", { value: step }));
    this.#before = opened;
    this.bar.hidden = opened === null;
    this.starter.disabled = opened !== null;
    if (opened === null) setLight(this.article, "step", null);
    else this.#showAsFar(opened);
    this.#keepClear();
  }

  #showAsFar(opened) {
    const step = this.steps[opened - 1];
    const next = this.steps[opened];
    for (const each of this.steps.slice(opened)) for (const element of each.shown) this.#hide(element);
    this.#hideSections(opened);
    setLight(this.article, "step", { ...step?.light, marks: step?.shown.filter((each) => each.matches("tr, li, p.equation")) });
    this.told.textContent = say("steps.count", { number: opened, all: this.steps.length });
    this.prompt.replaceChildren(this.told, " ", ...build(["span", {}, ...(next ? next.prompt : [say("steps.end")])]).childNodes);
    this.back.disabled = opened === 0;
    this.next.disabled = this.skip.disabled = !next;
  }

  /** A section without an open step shows its heading only, which says how many steps are inside. */
  #hideSections(opened) {
    const reached = new Set(this.steps.slice(0, opened).map((each) => each.section));
    const sections = this.article.querySelectorAll("[data-section]");
    for (const section of sections) {
      const id = section.dataset.section;
      const inside = this.steps.filter((each) => each.section === id);
      const closed = inside.length - this.steps.slice(0, opened).filter((each) => each.section === id).length;
      if (inside.length && !reached.has(id)) this.#hide(section);
      if (closed) section.before(this.#note(closed));
    }
  }

  #note(count) {
    return build(["p", { class: "steps-inside" }, say("steps.inside", { count })]);
  }

  #hide(element) {
    if (element.hidden) return;
    element.hidden = true;
    this.#hidden.add(element);
  }

  #clear() {
    for (const element of this.#hidden) element.hidden = false;
    this.#hidden.clear();
    for (const note of this.article?.querySelectorAll(".steps-inside") ?? []) note.remove();
  }

  #makeBar() {
    this.told = build(["span", { class: "step-count" }]);
    this.prompt = build(["p", { class: "step-prompt", id: "step-prompt" }]);
    this.back = this.#button("steps.back", () => this.#go(this.opened - 1, this.back, "takeBack"));
    this.next = this.#button("steps.open", () => this.#go(this.opened + 1, this.next), "step-next");
    this.skip = this.#button("steps.skip", () => this.#go(this.#endOfSection(), this.skip, "change", this.opened + 1));
    this.leave = this.#button("steps.leave", () => this.#leave());
    this.next.setAttribute("aria-describedby", "step-prompt");
    const bar = build(["div", { class: "step-bar", role: "group", "aria-label": say("steps.bar") }]);
    const buttons = build(["div", { class: "step-buttons" }]);
    buttons.append(this.back, this.next, this.skip, this.leave);
    bar.append(this.prompt, buttons);
    bar.hidden = true;
    return bar;
  }

  #button(key, action, name = "") {
    const button = build(["button", { type: "button", class: `text-button ${name}`.trim() }, say(key)]);
    button.addEventListener("click", action, { signal: this.#abort.signal });
    return button;
  }

  #endOfSection() {
    const { section } = this.steps[this.opened];
    return this.steps.findLastIndex((each) => each.section === section) + 1;
  }

  /** Open so many steps; the focus stays where it was, unless its button can do no more. What the browser takes back follows by itself. */
  #go(opened, button, how = "change", seen = opened) {
    this.article.querySelector("lit-terms")?.end(); // What was tapped would outshine the step.
    const step = opened ? this.steps[opened - 1].name : START;
    this.example[how]({ step });
    if (this.example.state.step === step) this.#arrive(button, seen);
  }

  /** At a step: the figure, the focus and the words follow; the screen shows it, or where the section begins that opened. */
  #arrive(button, seen = this.opened) {
    const { opened } = this;
    const step = this.steps[opened - 1];
    const show = () => this.#bringIntoSight(this.steps[seen - 1]);
    this.#at = this.example.state.step;
    this.#pin();
    (button.disabled ? this.#other(button) : button).focus({ preventScroll: true });
    this.example.announce(setText(step ? sayStep(step, opened, this.steps.length) : this.prompt.textContent, this.example.worked.topology));
    show();
    // On the way back the browser scrolls to where it was, after all this.
    requestAnimationFrame(() => this.isConnected && this.#at === step?.name && show());
  }

  /** The back button, and the one forward, go from step to step as well. */
  #onHistory() {
    const { step } = this.example.state;
    if (step === this.#at) return;
    if (this.opened === null) this.#arriveOutside();
    else this.#arrive(this.bar.contains(document.activeElement) ? document.activeElement : this.next);
  }

  /** The whole page again. */
  #arriveOutside() {
    this.#at = "";
    this.#unpin();
    this.starter.focus({ preventScroll: true });
    this.example.announce(say("steps.left"));
  }

  /** A link may lead to a step. */
  #begin() {
    if (this.opened === null) return;
    this.#at = this.example.state.step;
    this.#pin();
    if (!location.hash && this.opened) this.#bringIntoSight(this.steps[this.opened - 1]);
  }

  /** The figure follows the steps, unless the reader has taken it down. */
  #pin() {
    const pin = this.article.querySelector("figure-pin");
    if (!pin || pin.isPinned || pin.wasUnpinned) return;
    pin.pin(true);
    this.#hasPinned = true;
  }

  /** What the steps have pinned goes back with them. */
  #unpin() {
    const pin = this.article.querySelector("figure-pin");
    if (this.#hasPinned && pin.isPinned) pin.pin(false);
    this.#hasPinned = false;
  }

  #other(button) {
    return button === this.back ? this.next : this.next.disabled ? this.back : this.next;
  }

  #bringIntoSight(step) {
    // What is left to the reader is not shown: then the fields for it stand right before its place.
    const seen = step?.shown.filter((each) => each.checkVisibility()) ?? [];
    const newest = seen.findLast((each) => each.matches("tr, li"));
    if (newest || !step) bringIntoRoom(newest ?? this.article.querySelector("#junctions"));
    else bringIntoRoom(seen[0] ?? step.shown[0].previousElementSibling, seen.at(-1));
  }

  #leave() {
    const seen = this.steps[Math.max(this.opened - 1, 0)].shown.at(-1);
    const before = seen?.getBoundingClientRect().top;
    this.example.change({ step: "" });
    if (seen?.isConnected) scrollBy(0, seen.getBoundingClientRect().top - before);
    this.#arriveOutside();
  }

  /** The bar at the foot of the screen never covers the end of the page, nor what has the focus. */
  #keepClear() {
    const height = this.bar.hidden ? 0 : this.bar.offsetHeight;
    reserveRoom(undefined, height && height + 8);
    document.body.style.paddingBottom = height ? `${height}px` : "";
    document.documentElement.style.setProperty("--step-bar", `${height}px`);
  }
}
