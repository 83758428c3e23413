# Read by run.sh and speed.sh: installs what is missing, or says loudly what is.
# Usage: . judge/need.sh; need_package PACKAGE TEST...; install_needed
#
# Exits 3 if something can't be had, so that nobody takes silence for a verdict.
needed=""

need_package() {
	sh -c "$2" >/dev/null 2>&1 || needed="$needed $1"
}

install_needed() {
	[ -n "$needed" ] || return 0
	if ! command -v apt-get >/dev/null 2>&1; then
		echo "NOT JUDGED: missing, and no apt-get to install them with (Debian's names):$needed" >&2
		exit 3
	fi
	sudo=""
	[ "$(id -u)" = 0 ] || sudo=sudo
	echo "installing$needed"
	$sudo apt-get update -qq || true
	# shellcheck disable=SC2086
	DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq $needed >/dev/null || {
		echo "NOT JUDGED: apt-get could not install$needed" >&2
		exit 3
	}
}
