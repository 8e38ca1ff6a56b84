# browser.sh: Chromium for a scenario, beside lib.sh.  Its pictures stay in
# $BUILD/page-shots, to be looked at.
# shellcheck shell=sh disable=SC2154 # $folder and $tree are of lib.sh

# Two scenarios at once install into the one folder.
modules=$BUILD/node-page/node_modules
if ! flock "$BUILD/node-page.lock" npm install --silent --no-audit --no-fund \
    --prefix "$BUILD/node-page" playwright-core@1.65.1 axe-core@4.14.1 \
    >/dev/null; then
    skip "all of it" "playwright-core or axe-core cannot be had"
    exit 0
fi
mkdir -p "$BUILD/page-shots"

# The fleet to look at, and its past.
mkdir "$folder/demo"
cp etc/demo/*.conf etc/demo/*.ics "$folder/demo"
etc/demo/history "$ostler" "$folder/demo"
cd "$folder/demo" || exit 1

# browse SCRIPT: run it; it says itself what is so and what is not.
browse() {
    node "$tree/tests/scenarios/$1" "$tree" "$BUILD" "$modules" ||
        failures=$((failures + 1))
}
