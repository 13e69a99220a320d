// Stands before the theme's search worker. That and the index weigh as much as two pages, so they wait for the first word
// that somebody looks for. Messages are the theme's: 0 begin, 1 ready, 2 look for, 3 found.

const [begin, ready, look] = [0, 1, 2];
const answer = self.postMessage.bind(self);
let wanted = null;
let started = false;

self.postMessage = (said) => {
  if (said.type !== ready) return answer(said);
  started = true;
  tell({ type: look, data: wanted });
};

addEventListener("message", async (event) => {
  if (started || event.data.type !== look) return;
  event.stopImmediatePropagation();
  const first = wanted === null;
  wanted = event.data.data;
  if (!first) return;
  importScripts("search.a7633da7.min.js");
  const index = await (await fetch("../../../search/search_index.json")).json();
  tell({ type: begin, data: { ...index, options: { suggest: false } } });
});

function tell(data) {
  dispatchEvent(new MessageEvent("message", { data }));
}

answer({ type: ready });
