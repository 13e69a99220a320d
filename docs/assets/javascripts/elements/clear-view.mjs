/** What part of the screen is free to read in, and how what has the focus comes into it. */

/** The part of the screen that the masthead covers [px]. */
export function headerHeight() {
  return Math.max(document.querySelector(".md-header")?.getBoundingClientRect().bottom ?? 0, 0);
}

/** From where to where the screen is free [px]: below the masthead and a pinned figure, above the bar of the steps. */
export function freeRoom() {
  const pinned = document.querySelector("figure-pin.stuck:not(.beside) > figure-viewer");
  const bar = document.querySelector(".step-bar:not([hidden])");
  return { top: pinned ? pinned.getBoundingClientRect().bottom : headerHeight(), bottom: bar ? bar.getBoundingClientRect().top : innerHeight };
}

/** Tell the browser of the free room, so that its own scrolling keeps to it. */
export function reserveRoom(top, bottom) {
  const { style } = document.documentElement;
  if (top !== undefined) style.scrollPaddingTop = top ? `${Math.round(top)}px` : "";
  if (bottom !== undefined) style.scrollPaddingBottom = bottom ? `${Math.round(bottom)}px` : "";
}

/** Where a pinned figure is larger than its frame, the frame shows what is lit in it. */
export function showLit(article) {
  const frame = article.querySelector("figure-pin.stuck .figure-frame");
  if (!frame || (frame.scrollHeight <= frame.clientHeight && frame.scrollWidth <= frame.clientWidth)) return;
  const boxes = [...frame.querySelectorAll(".lit")].map((each) => each.getBoundingClientRect());
  if (!boxes.length) return;
  const { left, top, width, height } = frame.getBoundingClientRect();
  const middle = (from, to) => (Math.min(...boxes.map((box) => box[from])) + Math.max(...boxes.map((box) => box[to]))) / 2;
  frame.scrollBy(middle("left", "right") - left - width / 2, middle("top", "bottom") - top - height / 2);
}

const gap = 6;

/** Scroll an element of the article, or all as far as a last one, into the free room, its beginning first; nothing moves where it is there already, or not shown. */
export function bringIntoRoom(element, last = element) {
  if (!element?.closest?.("article") || !element.checkVisibility() || element.closest("figure-pin.stuck > figure-viewer, .step-bar, dialog")) return;
  const room = freeRoom();
  const { top } = element.getBoundingClientRect();
  const { bottom } = last.getBoundingClientRect();
  if (top < room.top + gap) scrollBy(0, top - room.top - gap);
  else if (bottom > room.bottom - gap) scrollBy(0, Math.min(bottom - room.bottom + gap, top - room.top - gap));
}
