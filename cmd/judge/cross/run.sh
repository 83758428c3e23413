#!/bin/sh
# Judges by CGAL whether solids cross themselves: those of the gallery, of every form
# and of N random designs of few openings (default 40):
#
#	sh cmd/judge/cross/run.sh [N [SEED]]
#
# Not 0 if one does, or a spoilt one is let pass (1), or nothing could be judged (3).
set -eu
cd "$(dirname "$0")/../../.."
n=${1:-40}
seed=${2:-1}
. unroll/plane/judge/need.sh
need_package g++ "command -v g++"
need_package libcgal-dev "[ -e /usr/include/CGAL/Polygon_mesh_processing/self_intersections.h ]"
install_needed
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
mkdir "$work/designs" "$work/files" "$work/spoilt"
g++ -std=c++17 -O1 -w -o "$work/cross" cmd/judge/cross/cross.cpp -lgmp -lmpfr
CGO_ENABLED=0 go build -o "$work/fretcut" ./cmd/fretcut
CGO_ENABLED=0 go run ./cmd/judge -n "$n" -seed "$seed" -out "$work/designs"
cp testdata/forms/*.json testdata/gallery/*.json "$work/designs/"
code=0
"$work/fretcut" make -solid stl -out "$work/files" "$work/designs" >"$work/log" 2>&1 || code=$?
[ "$code" -le 1 ] || { cat "$work/log" >&2; exit 1; }
find "$work/files" -name '*.stl' -size -4000k >"$work/list"
[ -s "$work/list" ] || { echo "cross: NOT JUDGED: no solid was made" >&2; exit 3; }
status=0
# shellcheck disable=SC2046
"$work/cross" $(cat "$work/list") || status=1

# One with a corner pulled through to the other side of the band must not pass.
python3 - "$(head -n 1 "$work/list")" "$work/spoilt/spoilt.stl" <<'END'
import struct, sys
data = bytearray(open(sys.argv[1], "rb").read())
corner = bytes(data[96:108])
far = struct.pack("<3f", *(-x for x in struct.unpack("<3f", corner)))
for at in range(84, len(data), 50):
    for k in range(12, 48, 12):
        if data[at + k:at + k + 12] == corner:
            data[at + k:at + k + 12] = far
open(sys.argv[2], "wb").write(data)
END
if "$work/cross" "$work/spoilt/spoilt.stl" >"$work/log"; then
	echo "cross: FAILED: a spoilt solid is let pass" >&2
	status=1
fi
exit "$status"
