"""Publish: the pages become one static site. The only room that knows the site generator."""
