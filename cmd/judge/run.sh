#!/bin/sh
# The independent readers over the gallery and N random designs (default 60):
#   sh cmd/judge/run.sh [N [SEED]]
# DXF by ezdxf, the bridge rule, fields' areas, cut sheets and tubes by Shapely and GEOS, SVG by librsvg
# and Chromium, PDF by poppler and mupdf, the solids of the gallery and of every tenth design by numpy-stl and
# lib3mf; lengths of blanks and the place of the bent faces by closed forms in
# numpy. One line a judge; not 0 if anything fails or a reader is missing.
set -eu
cd "$(dirname "$0")/../.."
n=${1:-60}
seed=${2:-1}

# Debian's own python has Debian's libraries; another one may come first in PATH.
python=/usr/bin/python3
[ -x "$python" ] || python=python3
missing=
for tool in "$python" rsvg-convert pdfinfo pdftoppm pdftotext pdftocairo mutool chromium go; do
	command -v "$tool" >/dev/null 2>&1 || missing="$missing $tool"
done
for module in ezdxf shapely numpy PIL stl; do
	"$python" -c "import $module" 2>/dev/null || missing="$missing python3-$module"
done
"$python" -c "import ctypes; ctypes.CDLL('lib3MF.so.1')" 2>/dev/null || missing="$missing lib3mf1"
if [ -n "$missing" ]; then
	echo "judge: missing:$missing" >&2
	echo "judge: on Debian: apt-get install python3-ezdxf python3-shapely python3-numpy python3-pil python3-stl lib3mf1 librsvg2-bin poppler-utils mupdf-tools chromium" >&2
	exit 1
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
mkdir "$work/designs" "$work/files"
CGO_ENABLED=0 go build -o "$work/fretcut" ./cmd/fretcut
CGO_ENABLED=0 go run ./cmd/judge -n "$n" -seed "$seed" -out "$work/designs"
for name in $("$work/fretcut" gallery); do
	"$work/fretcut" gallery "$name" >"$work/designs/gallery-$name.json"
done

# Exit code 1 says that the design breaks a rule; its files are written all the
# same unless it falls to pieces, which the count below brings out.
hand_over() { # DESIGN PAPER
	name=$(basename "$1" .json)
	code=0
	solid=
	case $name in gallery-* | random-*0) solid=-solid=stl,3mf ;; esac
	# shellcheck disable=SC2086
	"$work/fretcut" make -out "$work/files" -paper "$2" $solid "$1" >"$work/$name.log" 2>&1 || code=$?
	if [ "$code" -gt 1 ]; then
		echo "judge: FAILED: $name: fretcut make ends with $code: $(cat "$work/$name.log")" >&2
		return 1
	fi
	[ -f "$work/files/$name.dxf" ] || return 0
	cp "$1" "$work/files/$name.design.json"
	code=0
	"$work/fretcut" report -json "$1" >"$work/files/$name.report.json" || code=$?
	[ "$code" -le 1 ]
}
half() { # 0 or 1: every other design, on a core of its own
	i=0
	for design in "$work"/designs/*.json; do
		i=$((i + 1))
		[ $((i % 2)) -eq "$1" ] || continue
		paper=a4
		[ $((i % 8)) -gt 1 ] || paper=letter
		hand_over "$design" "$paper" || return 1
	done
}
half 0 &
other=$!
half 1
wait "$other"
made=$(ls "$work/designs" | wc -l)
whole=$(ls "$work/files" | grep -c '\.dxf$')
echo "files: $whole of $made designs written"
# A bridge rule that always holds leaves no design in pieces.
[ "$whole" -eq "$made" ] || { echo "judge: FAILED: $((made - whole)) designs fell to pieces" >&2; exit 1; }

# Some N of the designs, evenly over all.
some() {
	printf '%s\n' "$work"/designs/*.json | awk -v step=$(((made + $1 - 1) / $1)) 'NR % step == 0'
}

# Painting is slow: some 40 files of it, whatever N is.
every=$(((whole + 39) / 40))
status=0
# Cut sheets: some twelve designs each by four ways of asking for them, and the three
# profiles of cut files. A part that a kerf, tab or sheet has no room for may be refused.
sheet() { # FOLDER FLAGS...
	folder=$1
	shift
	mkdir "$work/$folder"
	for design in $(some 12); do
		name=$(basename "$design" .json)
		code=0
		"$work/fretcut" make -out "$work/$folder" "$@" "$design" >"$work/$folder.log" 2>&1 || code=$?
		if [ "$code" -gt 1 ]; then
			grep -q 'have room\|wider than the opening\|no room' "$work/$folder.log" || { cat "$work/$folder.log" >&2; return 1; }
			echo "cut sheet: refused: $(cut -c1-160 "$work/$folder.log")"
			continue
		fi
		cp "$work/files/$name.report.json" "$work/files/$name.design.json" "$work/$folder/"
	done
	"$python" cmd/judge/cutsheet.py "$work/$folder" "$@"
}
# Bands cut from tube: the gallery's closed ones made seamless, plain and with lead-ins and tabs.
tubes() { # FOLDER FLAGS...
	folder=$1
	shift
	mkdir "$work/$folder"
	for name in $("$work/fretcut" gallery); do
		"$work/fretcut" gallery "$name" | "$python" cmd/judge/tube.py -seamless "$work/$folder/$name.design.json" || continue
		code=0
		"$work/fretcut" report -json "$work/$folder/$name.design.json" >"$work/$folder/$name.report.json" || code=$?
		[ "$code" -le 1 ] || return 1
		cp "$work/$folder/$name.design.json" "$work/$folder/$name.json"
		"$work/fretcut" make -for laser -out "$work/$folder" "$@" "$work/$folder/$name.json" >"$work/$folder.log" 2>&1 || code=$?
		[ "$code" -le 1 ] || { cat "$work/$folder.log" >&2; return 1; }
	done
	"$python" cmd/judge/tube.py "$work/$folder" "$@"
}
profiles() {
	for curves in arcs arcs-r12 chords; do
		mkdir -p "$work/curves/$curves"
		for design in $(some 12); do
			name=$(basename "$design" .json)
			code=0
			"$work/fretcut" make -out "$work/curves/$curves" -curves "$curves" -chord 0.02 "$design" >"$work/curves.log" 2>&1 || code=$?
			[ "$code" -le 1 ] || { cat "$work/curves.log" >&2; return 1; }
			cp "$work/files/$name.report.json" "$work/files/$name.design.json" "$work/curves/$curves/"
		done
	done
	"$python" cmd/judge/profiles.py "$work/curves" 0.02 || return 1
	# A tighter tolerance than was asked for has to be refused.
	if "$python" cmd/judge/profiles.py "$work/curves" 0.01 >"$work/curves.log" 2>&1 || ! grep -q FAILED "$work/curves.log"; then
		echo "judge: FAILED: profiles.py lets chords pass that are too far off" >&2
		return 1
	fi
}
{
	"$python" cmd/judge/bridges.py "$work/files" || echo failed >"$work/failed"
	sheet sheet-1 -copies 4 -lead 0.8 -tabs 3 -kerf 0.06 || echo failed >"$work/failed"
	sheet sheet-2 -copies 3 -sheet 700x500 -curves chords -chord 0.01 -tabs 2 -gap 1 -margin 2 || echo failed >"$work/failed"
	sheet sheet-3 -copies 2 -curves arcs-r12 -lead 0.3 -gap 5 || echo failed >"$work/failed"
	sheet sheet-4 -lead 1 -sheet 400x300 || echo failed >"$work/failed"
	tubes tube-1 || echo failed >"$work/failed"
	tubes tube-2 -lead 0.6 -tabs 5 || echo failed >"$work/failed"
	profiles || echo failed >"$work/failed"
} &
beside=$!
"$python" cmd/judge/dxf.py "$work/files" || status=1
"$python" cmd/judge/svg.py "$work/files" "$every" || status=1
"$python" cmd/judge/pdf.py "$work/files" "$every" || status=1
"$python" -W ignore cmd/judge/solid.py "$work/files" || status=1
"$python" -W ignore cmd/judge/bent.py "$work/files" || status=1
"$python" -W ignore cmd/judge/areas.py "$work/files" || status=1
# The kerf on some twenty parts. One may be refused where a beam does not come
# through; that is counted.
kerf=0.1
refused=0
mkdir "$work/kerf"
for design in $(some 20); do
	code=0
	"$work/fretcut" make -out "$work/kerf" -kerf "$kerf" "$design" >"$work/log" 2>&1 || code=$?
	[ "$code" -gt 1 ] || continue
	grep -q 'wider than the opening' "$work/log" || { cat "$work/log" >&2; exit 1; }
	refused=$((refused + 1))
done
"$python" cmd/judge/kerf.py "$work/files" "$work/kerf" "$kerf" || status=1
[ "$refused" -eq 0 ] || echo "kerf: $refused parts have a place narrower than $kerf mm and were refused"

# What the laser shop gets of the gallery, with its job sheets; then one of these
# files changed behind its job sheet's back. It is spared what is formed in the round.
mkdir "$work/job"
for design in "$work"/designs/gallery-*.json; do
	code=0
	"$work/fretcut" make -for laser -date "a day" -out "$work/job" "$design" >"$work/log" 2>&1 || code=$?
	if grep -q '"making": "formed"' "$design" && grep -q 'formed in the round' "$work/log"; then
		continue
	fi
	[ "$code" -le 1 ] || { cat "$work/log" >&2; exit 1; }
done
"$python" cmd/judge/job.py "$work/job" "$work/files" || status=1
for note in "$work"/job/*-note.txt; do echo spoilt >>"$note"; done
if "$python" cmd/judge/job.py "$work/job" "$work/files" >"$work/log" 2>&1; then
	echo "judge: FAILED: job.py lets changed files pass" >&2
	status=1
fi

# Pictures for the client, and several copies on the pages of a template.
for design in "$work"/designs/gallery-*.json; do
	name=$(basename "$design" .json)
	for to in client bench; do
		code=0
		"$work/fretcut" make -for "$to" -copies 3 -out "$work/$to" "$design" >"$work/log" 2>&1 || code=$?
		[ "$code" -le 1 ] || { cat "$work/log" >&2; exit 1; }
	done
	if grep -q '"making": "formed"\|"joint": "seamless"' "$design"; then
		continue # a strip to wrap round, longer than the flat part, or patches
	fi
	mv "$work/bench/$name-bench-template.pdf" "$work/bench/$name-template.pdf"
	cp "$work/files/$name.report.json" "$work/files/$name.design.json" "$work/bench/"
	cp "$work/files/$name.dxf" "$work/files/$name.svg" "$work/bench/"
done
"$python" cmd/judge/picture.py "$work/client" "$work/files" || status=1
"$python" cmd/judge/pdf.py "$work/bench" || status=1

wait "$beside"
[ ! -e "$work/failed" ] || status=1

# A judge that lets everything pass is worth nothing: each gets a spoilt file.
part=$(ls "$work/files" | sed -n 's/^\(gallery-.*\)\.dxf$/\1/p' | head -n 1)
"$python" cmd/judge/spoil.py "$work/files" "$part" "$work/spoilt"
for judge in dxf bridges svg pdf solid bent areas; do
	if "$python" "cmd/judge/$judge.py" "$work/spoilt/$judge" >"$work/spoilt/$judge.log" 2>&1; then
		echo "judge: FAILED: $judge.py lets a spoilt file of $part pass" >&2
		status=1
	elif ! grep -q FAILED "$work/spoilt/$judge.log"; then
		echo "judge: FAILED: $judge.py broke on a spoilt file: $(tail -n 1 "$work/spoilt/$judge.log")" >&2
		status=1
	fi
done
[ "$status" -ne 0 ] || echo "spoilt files: all judges refuse theirs"

[ "$status" -eq 0 ] && echo "judge: all readers agree" || echo "judge: FAILED" >&2
exit "$status"
