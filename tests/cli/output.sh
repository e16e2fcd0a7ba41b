#!/usr/bin/env bash
# Files appear whole or not at all, inputs are never overwritten, a broken standard output is told.
set -euo pipefail
program=$PINFOLD_PROGRAM
folder=$(mktemp -d)
mounted=
tidy() {
    [ -z "$mounted" ] || umount "$mounted"
    rm -rf "$folder"
}
trap tidy EXIT
cd "$folder"
faults=0
fault() {
    echo "FAULT: $*" >&2
    faults=$((faults + 1))
}

# expect CODE TEXT COMMAND...: the exit code, and a text in what standard error says.
expect() {
    local code=$1 text=$2 got=0
    shift 2
    "$@" 2>said || got=$?
    [ "$got" = "$code" ] || fault "exit $got, not $code: $*: $(cat said)"
    if [ -n "$text" ]; then
        grep -qF -- "$text" said || fault "'$text' is not in '$(cat said)': $*"
    fi
    rm -f said
}
# alone FILE...: nothing else is in the folder.
alone() {
    local there
    there=$(ls -A . | tr '\n' ' ')
    [ "$there" = "$*${*:+ }" ] || fault "left in the folder: '$there', not '$*'"
}
show() { "$program" pinmap hdmi-a "$@"; }

expect 0 "" show -o page.txt
cmp page.txt <(show) || fault "the file is not what the terminal shows"
alone page.txt
expect 0 "" show -o page.txt
[ "$(show -o - | wc -c)" = "$(wc -c <page.txt)" ] || fault "-o - is not standard output"

# A file keeps its mode, and a link stays a link.
chmod 640 page.txt
ln -s page.txt link.txt
echo old >page.txt
show -o link.txt
[ -L link.txt ] || fault "the link was replaced"
cmp page.txt <(show) || fault "nothing was written through the link"
[ "$(stat -c %a page.txt)" = 640 ] || fault "the mode was not kept"
rm link.txt

# Refused places.
mkdir sub
ln -s nowhere dangling
mkfifo pipe
expect 2 "'sub' is a folder; name a file" show -o sub
expect 2 "'/dev/null' is not a plain file; for standard output write '-'" show -o /dev/null
expect 2 "'pipe' is not a plain file" show -o pipe
expect 2 "'dangling' is a link that leads to no file" show -o dangling
expect 2 "there is no folder 'none' to write 'page.txt' into" show -o none/page.txt
rm -r sub dangling pipe

# Inputs are never overwritten, whatever the name they are called by.
cp -r "$PINFOLD_ROOT/examples/lid-link" design
before=$(cat design/* | cksum)
for input in design/design.yaml ./design/../design/design.yaml design/base.yaml; do
    expect 2 "is an input of this command and is not overwritten" \
        "$program" table design/design.yaml -o "$input"
done
[ "$(cat design/* | cksum)" = "$before" ] || fault "an input was changed"
rm -r design

# Standard output that cannot be written to.
expect 2 "cannot write to standard output: No space left on device" show >/dev/full
expect 2 "cannot write to standard output" show >&-
expect 2 "cannot write to standard output" "$program" --help >/dev/full
# A reader that leaves early is no fault: the quiet end is by SIGPIPE (128 + 13).
{ sleep 0.3; got=0; "$program" explain 2>said || got=$?; echo $got >code; } | true
[ "$(cat code)" = 141 ] || fault "a closed pipe ends with $(cat code)"
[ ! -s said ] || fault "a closed pipe is not quiet: $(cat said)"
rm -f said code

# A file that may not grow, and a full disk: the old file stays, nothing else is left.
echo old >page.txt
expect 2 "cannot write 'page.txt': File too large; nothing was written" \
    bash -c 'ulimit -f 1; exec "$0" pinmap hdmi-a -o page.txt' "$program"
[ "$(cat page.txt)" = old ] || fault "the old file was changed"
alone page.txt
mkdir disk
if mount -t tmpfs -o size=8k,mode=0777 none disk 2>/dev/null; then
    mounted=$folder/disk
    echo old >disk/page.txt
    head -c 4096 /dev/zero >disk/ballast
    expect 2 "cannot write 'disk/page.txt': No space left on device; nothing was written" \
        show -o disk/page.txt
    [ "$(cat disk/page.txt)" = old ] || fault "the old file was changed on a full disk"
    [ "$(ls -A disk | tr '\n' ' ')" = "ballast page.txt " ] || fault "left on the disk: $(ls -A disk)"
else
    echo "not tried: a full disk (no right to mount one)"
fi

[ "$faults" = 0 ] && echo "all as expected"
