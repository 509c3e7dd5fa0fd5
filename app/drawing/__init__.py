"""PURE. Numbers and words in, an SVG picture as text out: the crack's sketch and the plots.

Nothing here uses Flask, files, a clock or random numbers. Words come in as arguments, so that a
page can speak any language. Colours come from the classes of the site's stylesheet (ink, ink-thin,
hatch, concrete, resin, seal, steel, label), so that a picture follows the theme and prints.
"""
