#!/bin/sh
# Find a Chromium for the browser tests, or let the system's package manager install one.
# Where neither works the browser tests skip with a plain sentence, and fail in CI (CI=true).
for name in chromium chromium-browser google-chrome; do
  command -v "$name" >/dev/null 2>&1 && exit 0
done
as_root=""
if [ "$(id -u)" != 0 ]; then
  command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null && as_root="sudo -n"
  [ -z "$as_root" ] && { echo "No Chromium found and no right to install one: browser tests will not run."; exit 0; }
fi
if command -v apt-get >/dev/null 2>&1; then
  echo "Installing Chromium for the browser tests …"
  { $as_root apt-get update -qq && $as_root apt-get install -y -qq chromium; } >/dev/null 2>&1 \
    || echo "apt-get could not install chromium: browser tests will not run."
elif command -v dnf >/dev/null 2>&1; then
  $as_root dnf install -y -q chromium >/dev/null 2>&1 || echo "dnf could not install chromium: browser tests will not run."
else
  echo "No Chromium found and no known package manager: browser tests will not run."
fi
exit 0
