// Every element of the site, by its name. This is the only script that the pages load themselves.

import { FigureViewer } from "./elements/figure-viewer.mjs";
import { LiveExample } from "./elements/live-example.mjs";

const elements = {
  "live-example": LiveExample,
  "figure-viewer": FigureViewer,
};

for (const [name, element] of Object.entries(elements)) {
  if (!customElements.get(name)) customElements.define(name, element);
}
