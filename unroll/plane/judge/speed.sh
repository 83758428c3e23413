#!/bin/sh
# Times GEOS (C++) at the tasks of our benchmarks, on the same shapes, turn by turn,
# and prints both and their ratio. Best of several short turns each, so that what
# else the machine does counts little; arcs are 90 chords a loop for GEOS, which
# knows none. Installs what is missing where apt is at hand. Exits nonzero if the
# two do not come to the same result.
#
#	sh unroll/plane/judge/speed.sh [turns]
set -eu
cd "$(dirname "$0")/.."
. judge/need.sh
need_package g++ "command -v g++"
need_package libgeos-dev "[ -e /usr/include/geos_c.h ]"
need_package libgeos++-dev "[ -e /usr/include/geos/geom/Geometry.h ]"
install_needed
dir=$(mktemp -d)
trap 'rm -r "$dir"' EXIT
g++ -std=c++17 -O2 -DNDEBUG -o "$dir/speed" judge/speed.cpp -lgeos
go test -c -o "$dir/plane.test" .
"$dir/plane.test" -test.run '^TestWriteTasksForSpeed$' -speed "$dir/tasks.txt" >/dev/null
status=0
for task in $(sed -n 's/^task \([^ ]*\) .*/\1/p' "$dir/tasks.txt"); do
	i=0
	while [ "$i" -lt "${1:-4}" ]; do
		i=$((i + 1))
		"$dir/speed" "$dir/tasks.txt" "$task" >>"$dir/geos.txt" || status=1
		"$dir/plane.test" -test.run '^$' -test.bench "^Benchmark$task\$" -test.benchmem -test.benchtime 20ms -test.count 6 -test.cpu 1 >>"$dir/ours.txt"
	done
done
awk '
function ms(ns) { return ns >= 1e5 ? sprintf("%.2f ms", ns / 1e6) : sprintf("%.2f us", ns / 1e3) }
NR == FNR { if ($1 ~ /^Benchmark/) { sub(/^Benchmark/, "", $1); sub(/-[0-9]+$/, "", $1)
	if (!($1 in t) || $3 < t[$1]) { t[$1] = $3; a[$1] = $7 } } next }
{ if (!($1 in g)) order[++n] = $1
	if (!($1 in g) || $2 < g[$1]) g[$1] = $2 }
END { printf "%-28s %12s %12s %10s %12s\n", "task", "we", "GEOS", "ratio", "allocations"
	for (i = 1; i <= n; i++) { x = order[i]
	printf "%-28s %12s %12s %9.2fx %12d\n", x, ms(t[x]), ms(g[x]), g[x] / t[x], a[x] } }
' "$dir/ours.txt" "$dir/geos.txt"
exit $status
