#!/bin/sh
# Builds Fretband and opens its window on a design of the gallery. Where there is
# no display, makes that design's files instead. Usage: sh cmd/run.sh [NAME|DESIGN]
set -eu
cd "$(dirname "$0")/.."
. cmd/setup.sh
need_go
design=${1:-harbour-cuff}
mkdir -p bin

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
	# shellcheck disable=SC2086
	need "The window" $window_packages
	echo "Building the window; the first time takes some minutes."
	go build -o bin/fretband ./cmd/fretband
	go build -o bin/fretcut ./cmd/fretcut
	case $design in
	*.json) exec bin/fretband "$design" ;;
	*) exec bin/fretband -gallery "$design" ;;
	esac
fi

CGO_ENABLED=0 go build -o bin/fretcut ./cmd/fretcut
out=out/$(basename "$design" .json)
mkdir -p "$out"
case $design in
*.json) file=$design ;;
*)
	file=$out/$design.json
	bin/fretcut gallery "$design" >"$file"
	;;
esac
bin/fretcut make -out "$out" "$file"
bin/fretcut report "$file" >"$out/report.txt"
echo "No display here, so no window. The design's files are in $(pwd)/$out:"
ls "$out"
