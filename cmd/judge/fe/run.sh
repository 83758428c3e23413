#!/bin/sh
# What we say of how bands carry load against CalculiX, over the gallery, a band of each
# form, other thicknesses and N random designs (default 4):
#   sh cmd/judge/fe/run.sh [N [SEED]]
#   sh cmd/judge/fe/run.sh -only NAME,... [-size MM] [-turn DEGREES]
# gmsh meshes the metal anew in triangles of six nodes, CalculiX solves. One line a case;
# not 0 if stiffness is off by more than 2 %, the 99th percentile of stress by 5 %, its
# peak by -20 to 5 %, if forces don't balance, if fewer than 20 designs were judged, or if
# a program is missing and can't be installed. Some half an hour on one core.
set -eu
cd "$(dirname "$0")/../../.."
. cmd/setup.sh
need_go
need "Loading bands by finite elements" gmsh calculix-ccx python3 python3-numpy || {
	echo "fe: NOT CHECKED: stiffness and stress were compared with nothing" >&2
	exit 1
}
python=/usr/bin/python3
[ -x "$python" ] || python=python3
for tool in gmsh ccx "$python"; do
	command -v "$tool" >/dev/null 2>&1 || {
		echo "fe: NOT CHECKED: $tool is missing, so stiffness and stress were compared with nothing" >&2
		exit 1
	}
done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
mkdir "$work/random"
case ${1:-} in
-*)
	CGO_ENABLED=0 go run ./cmd/judge/fe -out "$work" "$@"
	"$python" cmd/judge/fe/judge.py -few "$work"
	;;
*)
	CGO_ENABLED=0 go run ./cmd/judge -n "${1:-4}" -seed "${2:-14}" -out "$work/random"
	CGO_ENABLED=0 go run ./cmd/judge/fe -out "$work" "$work"/random/*.json
	"$python" cmd/judge/fe/judge.py "$work"
	;;
esac
