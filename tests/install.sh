#!/usr/bin/env bash
# Installs into a stage, moves the stage, and uses the program and the library from there.
set -euo pipefail
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
fail() { echo "FAULT: $*"; exit 1; }

cmake --install "$PINFOLD_BUILD" --prefix "$folder/stage" >/dev/null
mv "$folder/stage" "$folder/moved"
prefix=$folder/moved
cp -r "$PINFOLD_ROOT/examples/lid-link" "$folder/design"

# The program, from a foreign folder, with the pin maps that were moved with it.
mkdir "$folder/elsewhere" && cd "$folder/elsewhere"
"$prefix/bin/pinfold" pinmap | grep -q '^    hdmi-a ' || fail "the pin maps were not found"
"$prefix/bin/pinfold" check "$folder/design/design.yaml" || fail "the example is not clean"
! grep -qaF "$PINFOLD_ROOT/pinmaps" "$prefix/bin/pinfold" || fail "the program knows the sources"
mv "$prefix/share/pinfold/pinmaps" "$prefix/away"
! "$prefix/bin/pinfold" pinmap hdmi-a 2>/dev/null || fail "pin maps came from somewhere else"
mv "$prefix/away" "$prefix/share/pinfold/pinmaps"
for file in $(cd "$PINFOLD_ROOT/pinmaps" && find . -name '*.yaml'); do
    [ -f "$prefix/share/pinfold/pinmaps/$file" ] || fail "$file was not installed"
done
[ -n "$(find "$prefix" -name LICENSE)" ] || fail "the licence was not installed"

# The library. A build with sanitizers must be used with them.
flags=
grep -q '^PINFOLD_STRICT:BOOL=ON' "$PINFOLD_BUILD/CMakeCache.txt" && flags=-fsanitize=address,undefined
cmake -S "$PINFOLD_ROOT/tests/consumer" -B consumer -DCMAKE_PREFIX_PATH="$prefix" \
    -DCMAKE_CXX_FLAGS="$flags" >log 2>&1 || { cat log; fail "the package was not found"; }
cmake --build consumer >log 2>&1 || { cat log; fail "the consumer does not build"; }
said=$(consumer/consumer "$folder/design/design.yaml") || fail "the consumer fails: $said"
[ "$said" = "Tide logger, screen in the lid: 19 passes, clean" ] || fail "the consumer says: $said"
# Each header stands alone, by both ways to include it.
for header in $(cd "$prefix/include/pinfold" && find . -name '*.hpp' -printf '%P\n'); do
    echo "#include <pinfold/$header>"
done >all.cpp
g++ -std=c++20 -fsyntax-only $(pkg-config --cflags eigen3) -I"$prefix/include" -I"$prefix/include/pinfold" all.cpp ||
    fail "an installed header cannot be included"
echo "all as expected"
