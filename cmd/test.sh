#!/bin/sh
# Installs what the tests need and runs all of them; ends within ten minutes on
# two cores. With -long it goes on with fuzzing, the long judging, the
# soaks and a bare machine.
set -eu
cd "$(dirname "$0")/.."
. cmd/setup.sh
long=
for a in "$@"; do
	case $a in
	-long) long=1 ;;
	*)
		echo "usage: sh cmd/test.sh [-long]" >&2
		exit 2
		;;
	esac
done
export LANG=C.UTF-8
step() { printf '\n== %s\n' "$*"; }

step packages
need_go
# shellcheck disable=SC2086
need "The tests" $window_packages $drive_packages $judge_packages

step format and vet
unformatted=$(gofmt -l cmd app pattern unroll export testdata)
[ -z "$unformatted" ] || { echo "gofmt wants to change: $unformatted" >&2; exit 1; }
go vet ./... ./testdata
go run honnef.co/go/tools/cmd/staticcheck@v0.8.2 ./... ./testdata

step unit tests, examples, golden files
go test ./...

step the core without a C compiler
mkdir -p bin
CGO_ENABLED=0 go build -o bin/fretcut ./cmd/fretcut
go build -o bin/fretband ./cmd/fretband

step independent readers
sh cmd/judge/run.sh 100

step the window, driven
sh cmd/drive.sh bin/fretband bin/fretcut out/screens

if [ -n "$long" ]; then
	step fuzzing
	for pkg in $(go list ./unroll/... ./pattern/... ./export/...); do
		for f in $(go test -list '^Fuzz' "$pkg" | grep '^Fuzz' || true); do
			echo "$pkg $f"
			go test -run '^$' -fuzz "^$f\$" -fuzztime 60s "$pkg"
		done
	done
	step random cases of the day
	for _ in 1 2 3 4 5; do go test ./unroll/plane -count=1 -args -seed 0; done
	step odd designs, made for every receiver
	CGO_ENABLED=0 go run ./cmd/judge -make 3000
	step soak
	CGO_ENABLED=0 go run ./cmd/judge -soak 100000
	step weakest ways on a grid
	go test ./pattern/check -run Grid -args -grid-designs 50
	step every motif on every band
	go test ./pattern/check -run EveryPattern -timeout 2h -args -every-pattern
	step bands loaded by finite elements
	sh cmd/judge/fe/run.sh
	step tests tested by changes of the code
	sh cmd/mutants.sh
	step long judging
	sh cmd/judge/run.sh 3000
	sh cmd/judge/cross/run.sh 200
	for seed in 1 21; do sh unroll/plane/judge/run.sh 1000 "$seed"; done
	step killed amid saving and handing over
	go test ./cmd -run Killed -timeout 60m -v -args -kills 500
	step random edits and undos in the window
	FYNE_CACHE=2s go test ./app/ui -run RandomEdits -timeout 60m -v -args -soak-edits 10000
	step both commands on a bare machine
	sh cmd/bare.sh
fi
step all passed
