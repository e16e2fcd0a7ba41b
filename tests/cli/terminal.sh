#!/usr/bin/env bash
# Colour on a terminal only, and never against the user's wish. `script` lends us a terminal.
set -euo pipefail
program=$PINFOLD_PROGRAM
command -v script >/dev/null || { echo "not tried: there is no script(1)"; exit 77; }
red=$'\x1b[1;31merror:\x1b[0m'
faults=0

# said ENVIRONMENT...: what a misspelt name prints on a terminal.
said() { env "$@" script -qec "$program pinmap hdmi-b" /dev/null </dev/null || true; }
expect() {
    local wanted=$1 what=$2 text=$3 got=no
    [[ $text != *"$red"* ]] || got=yes
    [ "$got" = "$wanted" ] || { echo "FAULT: $what: $(printf %q "$text")"; faults=$((faults + 1)); }
}
expect yes "a terminal" "$(said TERM=xterm NO_COLOR=)"
expect no "NO_COLOR" "$(said TERM=xterm NO_COLOR=1)"
expect no "a dumb terminal" "$(said TERM=dumb NO_COLOR=)"
expect no "a pipe" "$(TERM=xterm "$program" pinmap hdmi-b 2>&1 || true)"
[ "$faults" = 0 ] && echo "all as expected"
