# Read by run.sh and test.sh: installs what is missing, or names it.
# Usage: . cmd/setup.sh; need PURPOSE PACKAGE...

# The libraries that the window is built with (Fyne's own list for Debian).
window_packages="gcc libc6-dev pkg-config libgl-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev"
# A screen without a screen, and the hands that drive the window on it.
drive_packages="xvfb xauth libgl1-mesa-dri xdotool imagemagick x11-utils"
# Readers of our files that know nothing of us.
judge_packages="python3 python3-ezdxf python3-shapely python3-numpy python3-pil python3-stl lib3mf1 librsvg2-bin poppler-utils mupdf-tools chromium"

need() {
	purpose=$1
	shift
	if ! command -v dpkg-query >/dev/null 2>&1; then
		echo "$purpose needs these packages (Debian's names; your system's may differ): $*" >&2
		echo "They can't be installed here by themselves. Going on in the hope that they are there." >&2
		return 0
	fi
	missing=
	for p in "$@"; do
		dpkg-query -W -f='${Status}\n' "$p" 2>/dev/null | grep -q 'install ok installed' || missing="$missing $p"
	done
	[ -n "$missing" ] || return 0
	sudo=
	if [ "$(id -u)" != 0 ]; then
		sudo=sudo
		command -v sudo >/dev/null 2>&1 || {
			echo "$purpose needs:$missing. Install them as root: apt-get install$missing" >&2
			return 1
		}
	fi
	echo "$purpose: installing$missing"
	$sudo apt-get update -qq || true
	# shellcheck disable=SC2086
	DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq $missing >/dev/null || {
		echo "$purpose: apt-get could not install$missing. Install them by hand and try again." >&2
		return 1
	}
}

# Go itself: 1.21 and newer fetch by themselves the version that go.mod names.
need_go() {
	command -v go >/dev/null 2>&1 || { [ -x /usr/local/go/bin/go ] && PATH=$PATH:/usr/local/go/bin && export PATH; } || true
	command -v go >/dev/null 2>&1 || need "Go" golang-go || true
	command -v go >/dev/null 2>&1 || {
		echo "Go is missing. Install Go 1.24 or newer from https://go.dev/dl/ and try again." >&2
		return 1
	}
	version=$(go env GOVERSION | sed 's/^go1\.\([0-9]*\).*/\1/')
	case $version in
	'' | *[!0-9]*) ;; # a development version: trust it
	*)
		if [ "$version" -lt 21 ]; then
			echo "Go 1.$version is too old. Install Go 1.24 or newer from https://go.dev/dl/ and try again." >&2
			return 1
		fi
		;;
	esac
}
