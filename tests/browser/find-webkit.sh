#!/bin/sh
# Find WebKit's driver and a screen for it, or let apt-get install them. Where neither works the test
# of the second engine skips with a plain sentence, in CI too: not every system packages the driver.
is_here() { command -v WebKitWebDriver >/dev/null 2>&1 && command -v Xvfb >/dev/null 2>&1; }
is_here && exit 0
not="the test of WebKit will not run"
as_root=""
if [ "$(id -u)" != 0 ]; then
  command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null && as_root="sudo -n"
  [ -z "$as_root" ] && { echo "No WebKit driver found and no right to install one: $not."; exit 0; }
fi
command -v apt-get >/dev/null 2>&1 || { echo "No WebKit driver found and no apt-get: $not."; exit 0; }
echo "Installing WebKit's driver for the browser tests …"
{ $as_root apt-get update -qq && $as_root apt-get install -y -qq webkit2gtk-driver xvfb; } >/dev/null 2>&1
is_here || echo "apt-get could not install webkit2gtk-driver and xvfb: $not."
exit 0
