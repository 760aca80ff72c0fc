#!/usr/bin/env bash
# The layer check must fail on each kind of wrong include, and pass on the tree as it is.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
place=$(mktemp -d); trap 'rm -rf "$place"' EXIT
bad=0; passed=0

house_with() {  # FILE INCLUDE
  rm -rf "${place:?}"/*; mkdir -p "$place"/{engine,io,report,issue,serve,cli,validation} "$place/$(dirname "$1")"
  printf '#include %s\n' "$2" > "$place/$1"
}
expect_refused() {  # FILE INCLUDE
  house_with "$@"
  if "$root/tools/check_layers" "$place" > /dev/null; then echo "not refused: $1 includes $2"; bad=$((bad + 1)); else passed=$((passed + 1)); fi
}
expect_allowed() {  # FILE INCLUDE
  house_with "$@"
  if "$root/tools/check_layers" "$place" > /dev/null; then passed=$((passed + 1)); else echo "refused: $1 includes $2"; bad=$((bad + 1)); fi
}

expect_refused engine/base/a.cpp '"engine/geom/shapes.hpp"'      # an arrow reversed
expect_refused engine/losses/a.cpp '"engine/anchorage/anchorage.hpp"'  # rooms side by side
expect_refused report/a.cpp '"io/project.hpp"'
expect_refused engine/geom/a.cpp '"shapes.hpp"'                  # not from the root
expect_refused engine/geom/measure.cpp '<geos_c.h>'              # GEOS outside its one place
expect_refused engine/losses/a.cpp '<ogrsf_frmts.h>'
expect_refused report/a.cpp '<sqlite3.h>'
expect_refused engine/base/a.cpp '<fstream>'                     # the engine has no files
expect_refused engine/base/a.cpp '<random>'
expect_refused engine/newroom/a.cpp '"engine/base/result.hpp"'   # a room the table does not know
expect_refused engine/base/a.cpp '"io/json.hpp"'                 # the engine knows no files
expect_allowed engine/geom/a.cpp '"engine/base/result.hpp"'
expect_allowed io/a.cpp '"engine/geom/shapes.hpp"'               # any room of the engine
expect_allowed engine/geom/overlay.cpp '<geos_c.h>'

"$root/tools/check_layers" "$root" > /dev/null && passed=$((passed + 1)) || { echo "the tree itself is refused"; bad=$((bad + 1)); }
echo "$passed passed, $bad failed"
exit $((bad > 0))
