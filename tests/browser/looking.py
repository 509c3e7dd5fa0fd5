"""What is measured on each page: axe's rules, the size of targets, contrast, width.

Sources: WCAG 2.2 (contrast 1.4.6 and target size 2.5.5, both level AAA; reflow 1.4.10 at 320 px).
The project asks for more than 2.5.5's 44 px: 48 px, and 64 px for step and sign buttons.
"""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, ViewportSize

# Everything axe knows; of its two rules for the contrast of text, the one that asks for 7:1.
ALL_RULES = """{
  rules: { "color-contrast": { enabled: false }, "color-contrast-enhanced": { enabled: true } },
}"""
# What a theme can change, where everything else was looked at already.
COLOUR_RULES = '{ runOnly: ["color-contrast-enhanced", "link-in-text-block"] }'
AXE = """async (options) => {
  const { violations } = await axe.run(document, { resultTypes: ["violations"], ...options });
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.html.slice(0, 160))}`);
}"""

# In a fold nothing can be measured: open them all.
UNFOLD = "document.querySelectorAll('details').forEach((fold) => { fold.open = true; })"

# A link in a line of text is exempt from target size (WCAG 2.2, 2.5.5 and 2.5.8, "Inline"): its
# height is the line's. It counts as one when words of the same line stand beside it.
SMALL_TARGETS = """() => {
  const targets = "a[href], button, input, select, textarea, summary, [role=button]";
  const signs = new Set();
  for (const field of document.querySelectorAll("input[type=password]")) {
    field.form?.querySelectorAll("button").forEach((button) => signs.add(button));
  }
  function block(node) {
    while (getComputedStyle(node).display.startsWith("inline")) node = node.parentElement;
    return node;
  }
  function isInline(node) {
    if (node.tagName !== "A" || getComputedStyle(node).display !== "inline") return false;
    const line = block(node.parentElement);
    const words = (some) => (some.innerText ?? "").replace(/\\s+/g, "");
    const linked = [...line.querySelectorAll("a")].reduce((sum, a) => sum + words(a).length, 0);
    return words(line).length > linked;
  }
  function isSeen(node) {
    if (!node.checkVisibility({ visibilityProperty: true })) return false;
    return getComputedStyle(node).clipPath === "none" && node.type !== "hidden";
  }
  function area(node) {
    const label = ["checkbox", "radio"].includes(node.type) ? node.labels?.[0] : null;
    return (label ?? node).getBoundingClientRect();
  }
  const small = [];
  for (const node of document.querySelectorAll(targets)) {
    if (!isSeen(node) || isInline(node)) continue;
    const least = node.matches(".step-on") || signs.has(node) ? 64 : 48;
    const { width, height } = area(node);
    if (Math.min(width, height) < least - 0.01) {
      const text = (node.innerText || node.name || node.id).trim().slice(0, 40);
      small.push(`${node.tagName}.${node.className} "${text}" `
        + `${Math.round(width)} × ${Math.round(height)}, at least ${least}`);
    }
  }
  return small;
}"""

TOO_WIDE = "document.documentElement.scrollWidth - document.documentElement.clientWidth"

NARROW = {"width": 320, "height": 640}
SIDEWAYS = {"width": 844, "height": 390}


def prepare(page: Page) -> None:
    """Give every page of this browser axe from its start."""
    page.add_init_script(Axe().axe_script)


def is_too_wide(page: Page, viewport: ViewportSize) -> list[str]:
    """Say by how much a page of this size has to be scrolled sideways."""
    page.set_viewport_size(viewport)
    wide = page.evaluate(TOO_WIDE)
    return [f"{wide} px too wide at {viewport['width']} px"] if wide > 0 else []


def against_rules(page: Page) -> list[str]:
    """What axe finds on a page: everything in daylight, then the colours of the basement."""
    found = []
    for scheme, rules in (("light", ALL_RULES), ("dark", COLOUR_RULES)):
        page.emulate_media(color_scheme=scheme)
        found += [f"{scheme}: {one}" for one in page.evaluate(f"({AXE})({rules})")]
    return found


def small_targets(page: Page) -> list[str]:
    """Targets that a gloved thumb may miss."""
    return list(page.evaluate(SMALL_TARGETS))
