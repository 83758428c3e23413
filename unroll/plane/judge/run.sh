#!/bin/sh
# Judges the plane by two independent libraries: exact overlays by CGAL, and
# offsets, overlays, distances and necks of flattened loops by GEOS. Installs what
# is missing where apt is at hand. Exits nonzero on any disagreement (1), and
# where it could not judge at all (3).
#
#	sh unroll/plane/judge/run.sh [pairs [seed]]
set -eu
cd "$(dirname "$0")/.."
pairs=${1:-1000}
seed=${2:-1}
. judge/need.sh
# The system's Python is the one that apt installs for, whichever comes first.
python=""
find_python() {
	for p in python3 /usr/bin/python3; do
		if "$p" -c 'import shapely' 2>/dev/null; then
			python=$p
		fi
	done
}
find_python
need_package g++ "command -v g++"
need_package libcgal-dev "[ -e /usr/include/CGAL/General_polygon_set_2.h ]"
need_package python3-shapely "[ -n '$python' ]"
install_needed
find_python
dir=${JUDGE_DIR:-$(mktemp -d)}
mkdir -p "$dir"
if [ ! -x "$dir/overlay" ] || [ judge/overlay.cpp -nt "$dir/overlay" ]; then
	g++ -std=c++17 -O2 -w -o "$dir/overlay" judge/overlay.cpp -lgmp -lmpfr
fi
go test -count=1 -run '^TestWriteCasesForJudges$' . -args -judge "$dir" -judge-pairs "$pairs" -seed "$seed"
[ "$(grep -c '^case' "$dir/exact.txt")" = "$pairs" ] || { echo "NOT JUDGED: there are not $pairs pairs in $dir/exact.txt" >&2; exit 3; }
status=0
"$dir/overlay" "$dir/exact.txt" || status=1
"${python:-python3}" judge/flat.py "$dir/flat.txt" || status=1
[ -n "${JUDGE_DIR:-}" ] || rm -r "$dir"
exit $status
