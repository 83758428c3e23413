#!/bin/sh
# Pierced strips bent by finite elements that know nothing of us, against our
# sections for springing on: sh cmd/judge/fe/run.sh [NAME...]
# gmsh meshes, CalculiX solves. Not 0 if they are more than a tenth apart, or if a
# program is missing and can't be installed.
set -eu
cd "$(dirname "$0")/../../.."
. cmd/setup.sh
need_go
need "Bending pierced strips by finite elements" gmsh calculix-ccx python3 python3-numpy || {
	echo "fe: NOT CHECKED: the stiffness and stress of pierced strips were compared with nothing" >&2
	exit 1
}
python=/usr/bin/python3
[ -x "$python" ] || python=python3
for tool in gmsh ccx "$python"; do
	command -v "$tool" >/dev/null 2>&1 || {
		echo "fe: NOT CHECKED: $tool is missing, so the stiffness and stress of pierced strips were compared with nothing" >&2
		exit 1
	}
done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
CGO_ENABLED=0 go run ./cmd/judge/fe -out "$work"
"$python" cmd/judge/fe/bend.py "$work" "$@"
