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
			echo "$purpose: not installed yet:$missing. Install them as root and try again: apt-get install$missing" >&2
			return 1
		}
	fi
	echo "$purpose: installing$missing"
	$sudo apt-get update -qq || true
	# sudo drops the environment, so the word to ask nothing stands behind it.
	# shellcheck disable=SC2086
	$sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $missing >/dev/null || {
		echo "$purpose: apt-get could not install$missing. Install them as root and try again: apt-get install$missing" >&2
		return 1
	}
}

# Go itself: 1.21 and newer fetch by themselves the version that go.mod names. An
# older one, as in Debian 12, fetches the same module when it is told to.
need_go() {
	command -v go >/dev/null 2>&1 || { [ -x /usr/local/go/bin/go ] && PATH=$PATH:/usr/local/go/bin && export PATH; } || true
	command -v go >/dev/null 2>&1 || need "Go" golang-go ca-certificates || true
	command -v go >/dev/null 2>&1 || {
		echo "Go is missing. Any version will do, from the system's packages or from https://go.dev/dl/; with it, try again." >&2
		return 1
	}
	case $(go version) in
	"go version go1."[0-9][!0-9]* | "go version go1.1"[0-9][!0-9]* | "go version go1.20"[!0-9]*) fetch_go ;;
	esac
}

# fetch_go has a Go before 1.21 fetch the one that go.mod names, as a module, into the
# place where newer ones keep it, and puts it first in PATH.
fetch_go() {
	old=$(go version | cut -d ' ' -f 3)
	new=$(sed -n 's/^go \([0-9a-z.]*\).*/\1/p; s/^toolchain go\([0-9a-z.]*\).*/\1/p' go.mod | tail -n 1)
	by_hand="Install Go $new or newer from https://go.dev/dl/ and try again."
	if [ "${GOTOOLCHAIN:-auto}" = local ]; then
		echo "Go is $old, $new is needed, and GOTOOLCHAIN=local keeps it from being fetched. Unset it, or: $by_hand" >&2
		return 1
	fi
	module=golang.org/toolchain@v0.0.1-go$new.$(go env GOHOSTOS)-$(go env GOHOSTARCH)
	root=$(go env GOMODCACHE)/$module
	if [ ! -x "$root/bin/go" ]; then
		! command -v dpkg-query >/dev/null 2>&1 || need "Fetching Go" ca-certificates || return 1
		echo "Go is $old, $new is needed: fetching it, some 80 MB; nothing is installed."
		echo "  the module    $module"
		echo "  from          $(go env GOPROXY)"
		case $(go env GOSUMDB),$(go env GONOSUMDB) in
		off,*) verified="nothing, as GOSUMDB=off asks" ;;
		*,) verified=$(go env GOSUMDB) ;;
		*) verified="$(go env GOSUMDB), except for what GONOSUMDB=$(go env GONOSUMDB) leaves out" ;;
		esac
		echo "  verified by   $verified"
		echo "  into          $root"
		# Outside our module, whose go.mod an old Go can't read.
		(cd / && GO111MODULE=on GOWORK=off go mod download "$module") || {
			echo "Go $new could not be fetched. $by_hand" >&2
			return 1
		}
		ready_go "$root" || {
			echo "$root can't be made ready. $by_hand" >&2
			return 1
		}
	fi
	unset GOROOT
	PATH=$root/bin:$PATH
	export PATH
	go version >/dev/null || { echo "$root/bin/go does not run here. $by_hand" >&2; return 1; }
}

# ready_go gives a Go that came as a module what the zip of a module can't hold, as Go
# itself does since 1.21: the names of its go.mod files, and the execute bits. That of
# bin/go comes last, since it says that all is done.
ready_go() {
	find "$1" -name _go.mod | while read -r f; do
		chmod u+w "${f%/*}" && cp -f "$f" "${f%/*}/go.mod" || exit 1
	done && chmod -R a+x "$1/pkg/tool" "$1/lib" && chmod a+x "$1/bin/gofmt" && chmod a+x "$1/bin/go"
}
