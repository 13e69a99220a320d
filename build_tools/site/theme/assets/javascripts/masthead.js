{#- What only works with scripts, in one file instead of on every page: the paper's colour, the search, and what the theme's
    own script wants to be told. It is run where it stands in the masthead, so nothing is seen to move. -#}
{%- import "partials/language.html" as lang with context -%}
{%- set tools -%}
  {% include "partials/palette.html" %}
  <label class="md-header__button md-icon" for="__search" title="{{ lang.t('search') }}">
    {% include ".icons/material/magnify.svg" %}
  </label>
  {#- The theme's search has no name of its own. By the name of its form the theme knows that it is to fetch the index at once. -#}
  {% set search %}{% include "partials/search.html" %}{% endset %}
  {{ search | replace('role="dialog"', 'role="dialog" aria-label="' ~ lang.t('search') ~ '"') | replace(' name="search"', '') }}
  <script id="__config" type="application/json"></script>
{%- endset -%}
{%- set palette %}{% include "partials/javascripts/palette.html" %}{% endset -%}
{%- set translations = namespace(all={}) -%}
{%- for key in [
  "clipboard.copy", "clipboard.copied", "search.result.placeholder", "search.result.none", "search.result.one", "search.result.other",
  "search.result.more.one", "search.result.more.other", "search.result.term.missing", "select.version"
] -%}
  {%- set _ = translations.all.update({key: lang.t(key)}) -%}
{%- endfor -%}
var __md_scope = new URL("{{ config.extra.scope }}", location);
var __md_hash = (text) => [...text].reduce((sum, letter) => (sum << 5) - sum + letter.charCodeAt(0), 0);
var __md_get = (key, store = localStorage, scope = __md_scope) => JSON.parse(store.getItem(scope.pathname + "." + key));
var __md_set = (key, value, store = localStorage, scope = __md_scope) => {
  try {
    store.setItem(scope.pathname + "." + key, JSON.stringify(value));
  } catch {}
};
{
  const here = document.currentScript;
  const base = new URL("../..", here.src).href;
  const make = ([tag, attributes, ...children], space) => {
    const inside = attributes.xmlns ?? space;
    const element = inside ? document.createElementNS(inside, tag) : document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) if (name !== "xmlns") element.setAttribute(name, value);
    element.append(...children.map((child) => (typeof child === "string" ? child : make(child, inside))));
    return element;
  };
  here.before(...{{ tools | trees | tojson }}.map((tree) => make(tree)));
  here.previousElementSibling.textContent = JSON.stringify({
    base,
    features: {{ config.theme.features | tojson }},
    translations: {{ translations.all | tojson }},
    search: base + "assets/javascripts/workers/search-later.js",
    annotate: null,
    tags: null,
    version: null,
  });
}
{{ palette | replace("<script>", "") | replace("</script>", "") }}
