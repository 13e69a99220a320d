// An old address leads on: the page itself does so without a script; this one takes parameters and section along.

const link = document.querySelector("main a");
if (link) {
  const onward = new URL(link.href);
  onward.search = location.search;
  onward.hash = location.hash;
  location.replace(onward);
}
