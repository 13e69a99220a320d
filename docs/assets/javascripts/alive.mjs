// What works a page: fetched as one with the first sign of a reader's hand.

import { FigurePin } from "./elements/figure-pin.mjs";
import { LitTerms } from "./elements/lit-terms.mjs";
import { LiveExample } from "./elements/live-example.mjs";

export const working = { "live-example": LiveExample, "figure-pin": FigurePin, "lit-terms": LitTerms };
