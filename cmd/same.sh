#!/bin/sh
# Proves that a change of the code changes no output: makes the files of every receiver and
# every report of the gallery and of the test designs with an older commit and with the
# working copy, and compares them byte by byte.
#
# usage: sh cmd/same.sh COMMIT
set -eu
cd "$(dirname "$0")/.."
[ $# -eq 1 ] || { echo "usage: sh cmd/same.sh COMMIT" >&2; exit 2; }

tmp=$(mktemp -d)
trap 'rm -rf "$tmp"' EXIT INT TERM
export CGO_ENABLED=0

mkdir "$tmp/source"
git archive "$1" | tar -x -C "$tmp/source"
(cd "$tmp/source" && go build -o "$tmp/before" ./cmd/fretcut)
go build -o "$tmp/after" ./cmd/fretcut

# Both commits get the designs of the older one, below one name, so that messages agree.
cp -R "$tmp/source/testdata" "$tmp/designs"
mkdir "$tmp/designs/built-in"
"$tmp/before" gallery | awk '{ print $1 }' | while read -r name; do
	"$tmp/before" gallery "$name" >"$tmp/designs/built-in/$name.json" 2>/dev/null || rm "$tmp/designs/built-in/$name.json"
done
find "$tmp/designs" -name '*.go' -exec rm {} +

# Writes all that COMMAND makes of the designs to FOLDER.
all() { # COMMAND FOLDER
	mkdir "$2"
	(
		cd "$tmp/designs"
		told=../$(basename "$2")/told
		run() { echo "\$ $*" | sed "s/ [^ ]*\/\(before\|after\) / /"; "$@" 2>&1 || echo "exit code $?"; }
		{
			run "$1" help
			find . -name '*.json' | sort | while read -r design; do
				run "$1" report "$design"
				run "$1" report -json "$design"
			done
		} >"$told-reports"
		for whom in '' bench laser client casting; do
			out=$2/${whom:-all}
			# shellcheck disable=SC2086
			"$1" make ${whom:+-for $whom} -out "$out" . >"$told-${whom:-all}" 2>&1 || echo "exit code $?" >>"$told-${whom:-all}"
		done
		"$1" make -solid stl,3mf -out "$2/solid" built-in >"$told-solid" 2>&1 || true
		"$1" make -curves arcs-r12 -kerf 0.15 -lead 1 -tabs 2 -copies 3 -sheet 400x300 -paper letter -date today \
			-out "$2/options" built-in >"$told-options" 2>&1 || true
		"$1" make -for laser -curves chords -out "$2/chords" built-in >"$told-chords" 2>&1 || true
	)
	# The folder's own name stands in what is told.
	find "$2" -name 'told-*' -exec sed -i "s|$2|OUT|g; s|$1|fretcut|g" {} +
}
all "$tmp/before" "$tmp/old"
all "$tmp/after" "$tmp/new"

made=$(find "$tmp/old" -type f | wc -l)
if diff -rq "$tmp/old" "$tmp/new"; then
	echo "$made files are the same"
else
	echo "files of $1 and of the working copy differ; the first lines that do:" >&2
	diff -r "$tmp/old" "$tmp/new" | cut -c 1-300 | head -n 40 >&2
	exit 1
fi
