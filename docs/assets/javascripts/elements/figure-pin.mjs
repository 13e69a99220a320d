/**
 * `<figure-pin>`: keeps the figure in sight, small, above the text that is read; at its side where the screen is low.
 *
 * The figure leaves its place only when that place has scrolled away, and its place stays as large as it was, so the
 * text stands still. What has the focus is never under it.
 */

import { say } from "../page/saying.mjs";
import { bringIntoRoom, freeRoom, headerHeight, reserveRoom, showLit } from "./clear-view.mjs";

const low = "(max-height: 30em) and (orientation: landscape)";

/** Of its own size: so the type of a figure is 12 px high, and 11 px. */
const good = 12 / 15;
const least = 11 / 15;

/** How high the pinned figure is [px]: as high as it needs, at most a good third of the screen, somewhat more for good type; less where little of that is free. */
export function pinnedHeight(figure, width, screen, free, tools) {
  const wanted = Math.max(0.36 * screen, Math.min(0.42 * screen, good * figure.height + tools + 2));
  const most = Math.min(wanted, Math.max(0.3 * screen, 0.55 * free));
  return Math.round(Math.min(most, (figure.height / figure.width) * width + tools));
}

/** How wide a figure is drawn in its frame [px]: all of it, but never so small that it cannot be read. */
export function drawnWidth(figure, room) {
  return Math.floor(figure.width * Math.max(least, Math.min(room.width / figure.width, room.height / figure.height)));
}

export class FigurePin extends (globalThis.HTMLElement ?? Object) {
  #abort;

  async connectedCallback() {
    this.#abort = new AbortController();
    const { signal } = this.#abort;
    await customElements.whenDefined("figure-viewer");
    const tools = this.querySelector(".figure-tools");
    if (signal.aborted || !tools) return;
    this.viewer = this.querySelector("figure-viewer");
    this.button = document.createElement("button");
    this.button.type = "button";
    this.button.className = "figure-button figure-pin-button";
    this.button.textContent = say(this.isPinned ? "pin.unpin" : "pin.pin");
    tools.prepend(this.button);
    this.button.addEventListener("click", () => this.pinByHand(!this.isPinned), { signal });
    addEventListener("scroll", () => this.place(), { signal, passive: true });
    addEventListener("resize", () => this.place(), { signal });
    document.addEventListener("focusin", (event) => this.isStuck && bringIntoRoom(event.target), { signal });
    this.#byHand = history.state?.pinned;
    addEventListener("popstate", () => this.#keep(), { signal });
    if (this.#byHand) this.pin(true);
    else this.place();
  }

  disconnectedCallback() {
    this.#abort?.abort();
    this.button?.remove();
    this.#release(0);
  }

  /** Whether the reader wants the figure in sight. */
  isPinned = false;

  /** Whether the reader has pinned the figure, or taken it down, by hand; a reload keeps it. */
  #byHand;

  get wasUnpinned() {
    return this.#byHand === false;
  }

  /** Pin it, or take it down, because a reader wants it so: that lasts. */
  pinByHand(wanted) {
    this.pin(wanted);
    this.#byHand = wanted;
    this.#keep();
  }

  /** A link within the page makes an entry of the history that knows nothing yet. */
  #keep() {
    if (history.state?.pinned !== this.#byHand) history.replaceState({ ...history.state, pinned: this.#byHand }, "");
  }

  /** Whether the figure can be seen, in its place or pinned. */
  get isInSight() {
    const { top, bottom } = this.querySelector(".figure-frame").getBoundingClientRect();
    return bottom > headerHeight() + 40 && top < innerHeight - 40;
  }

  /** Keep the figure in sight, or put it back; what has the focus stays where it is on the screen. */
  pin(wanted) {
    const held = this.contains(document.activeElement) ? null : document.activeElement;
    const before = held?.getBoundingClientRect().top;
    this.isPinned = wanted;
    if (!this.button) return; // The tools are not there yet; they come with the figure's own element.
    this.button.textContent = say(wanted ? "pin.unpin" : "pin.pin");
    this.place();
    if (held && held !== document.body) scrollBy(0, held.getBoundingClientRect().top - before);
    if (held) bringIntoRoom(held);
    this.dispatchEvent(new CustomEvent("figure-pin", { bubbles: true, detail: { pinned: wanted } }));
  }

  /** Put the figure where it belongs: in its place while that can be seen, else at the edge of the screen. */
  place() {
    if (!this.isPinned) return this.#release(0);
    const isLow = matchMedia(low).matches;
    const header = headerHeight();
    const figure = this.querySelector(".figure-frame svg");
    const size = { width: Number(figure.getAttribute("width")), height: Number(figure.getAttribute("height")) };
    const text = this.closest("article").getBoundingClientRect();
    const tools = this.viewer.querySelector(".figure-tools").offsetHeight;
    const end = freeRoom().bottom;
    const height = pinnedHeight(size, text.width, innerHeight, end - header, tools);
    const { top, bottom } = this.getBoundingClientRect();
    const padding = header + (isLow ? 0 : height) + 8;
    reserveRoom(padding);
    if (bottom - header > (isLow ? 40 : height) && top < innerHeight) return this.#release(padding);
    const begins = !this.isStuck;
    if (begins) this.#stick(bottom - top);
    this.classList.toggle("beside", isLow);
    document.documentElement.classList.toggle("figure-beside", isLow);
    const room = isLow ? { width: 0.42 * innerWidth - 2, height: end - header - tools } : { width: text.width, height: height - tools - 2 };
    const values = { "--pin-top": header, "--pin-left": text.left, "--pin-width": text.width, "--pin-height": height, "--pin-figure": drawnWidth(size, room) };
    for (const [name, value] of Object.entries(values)) this.style.setProperty(name, `${value}px`);
    this.#cut(height, (drawnWidth(size, room) * size.height) / size.width > room.height + 1);
    if (begins) showLit(this.closest("article"));
  }

  /** Where not all of the figure has room, it ends between two rows, and its frame says that there is more. */
  #cut(height, isCut) {
    this.classList.toggle("cut", isCut);
    if (!isCut) return;
    const frame = this.querySelector(".figure-frame");
    frame.tabIndex = 0; // It scrolls.
    const from = frame.getBoundingClientRect().top - frame.scrollTop;
    const boxes = [...frame.querySelectorAll(".body, .label")].map((each) => each.getBoundingClientRect());
    const crossing = (end) => boxes.filter((box) => box.top - from < end && box.bottom - from > end);
    let end = frame.clientHeight;
    for (let over = crossing(end); over.length; over = crossing(end)) end = Math.min(...over.map((box) => box.top - from)) - 1;
    if (2 * end > frame.clientHeight) this.style.setProperty("--pin-height", `${Math.round(height - frame.clientHeight + end)}px`);
  }

  get isStuck() {
    return this.classList.contains("stuck");
  }

  #stick(room) {
    this.style.height = `${room}px`;
    this.classList.add("stuck");
    requestAnimationFrame(() => this.isStuck && bringIntoRoom(document.activeElement));
  }

  #release(padding) {
    reserveRoom(padding);
    if (!this.isStuck) return;
    this.classList.remove("stuck", "beside");
    this.style.height = "";
    document.documentElement.classList.remove("figure-beside");
  }
}
