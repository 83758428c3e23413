#!/bin/sh
# Tests the tests: changes one operator at a time (go-gremlins), runs the tests of that
# package and lists what none of them notices. Fails if the tests notice less than 85 %
# of the changes in code that they reach.
#
# usage: sh cmd/mutants.sh [TURN [TURNS]]
#
# The tests run with -short: what the slow ones alone would notice counts as unnoticed, so
# the share is the least that they notice. Changes whose tests run out of time ("endless")
# count as neither, since on a busy machine they may only be slow.
#
# There are some 12,000 changes, of ten seconds each. A run takes every TURNS-th file
# (20), by the date unless TURN says which: all have had their turn after 20 days, about an
# hour each on two cores. "0 1" takes all at once, more than a day.
set -eu
cd "$(dirname "$0")/.."
# shellcheck source=cmd/setup.sh
. cmd/setup.sh
need_go
least=85
turn=${1:-$(($(date +%s) / 86400))}
turns=${2:-20}

tmp=$(mktemp -d)
trap 'rm -rf "$tmp"' EXIT INT TERM
GOBIN=$tmp/bin go install github.com/go-gremlins/gremlins/cmd/gremlins@v0.6.0

# The files of a package that have their turn, and all others below its folder. Counted
# on from those of the packages before it, so that turns are alike.
seen=0
files() {
	find "$1" -name '*.go' ! -name '*_test.go' | sort |
		awk -v dir="$1" -v turn="$turn" -v turns="$turns" -v pick="$2" -v seen="$seen" '
			BEGIN { own = "^" dir "/[^/]*[.]go$" }
			{ chosen = $0 ~ own && (n++ + seen + turn) % turns == 0 }
			chosen == pick { sub("^" dir "/", ""); print }'
}

# Each package stands alone in a copy, without the tests of others: they take no time
# then, and no part in how long a change may take before it counts as endless.
mutate() {
	all=$(turns=1 && files "$1" 1 | wc -l)
	[ "$all" -gt 0 ] || { echo "no such files: $1" >&2; exit 1; }
	if [ -z "$(files "$1" 1)" ]; then
		seen=$((seen + all))
		return
	fi
	mkdir "$tmp/work"
	cp -R go.mod go.sum testdata unroll pattern export "$tmp/work"
	find "$tmp/work" -name '*_test.go' ! -path "$tmp/work/$1/*" -exec rm {} +
	find "$tmp/work/$1" -mindepth 2 -name '*_test.go' -exec rm {} +
	# shellcheck disable=SC2046
	set -- "$1" $(files "$1" 0 | sed 's/[.]/[.]/g; s/^/--exclude-files=^/; s/$/$/')
	seen=$((seen + all))
	dir=$1
	shift
	# Vet is off: what only vet refuses has not been noticed by a test.
	(cd "$tmp/work" && CGO_ENABLED=0 GOFLAGS="${GOFLAGS:-} -short -vet=off" \
		"$tmp/bin/gremlins" unleash --workers=2 --timeout-coefficient=2 "$@" "./$dir") >"$tmp/out" 2>&1 ||
		{ cat "$tmp/out" >&2; exit 1; }
	rm -rf "$tmp/work"
	sed -n "s|^ *LIVED \(.*\) at \(.*\)|unnoticed: $dir/\2 \1|p" "$tmp/out"
	awk -v dir="$dir" '
		/^ *KILLED / { k++ } /^ *LIVED / { l++ } /^ *TIMED OUT / { t++ } /^ *NOT COVERED / { u++ }
		END { print dir, k + 0, l + 0, t + 0, u + 0 }' "$tmp/out" >>"$tmp/sums"
}

: >"$tmp/sums"
mutate unroll
mutate unroll/plane
mutate pattern
mutate pattern/motif
mutate pattern/check
mutate export/cut

awk -v least="$least" '
	BEGIN { row = "%-14s %8s %9s %8s %10s %8s\n"; printf row, "package", "noticed", "unnoticed", "endless", "unreached", "per cent" }
	function per(k, l) { return k + l ? sprintf("%.1f", 100 * k / (k + l)) : "-" }
	{ printf row, $1, $2, $3, $4, $5, per($2, $3); k += $2; l += $3; t += $4; u += $5 }
	END {
		printf row, "all", k, l, t, u, per(k, l)
		if (k < least / 100 * (k + l)) { print "the tests notice less than " least " %" > "/dev/stderr"; exit 1 }
	}' "$tmp/sums"
