#!/bin/sh
# Proves the two commands of README on a bare machine: a Debian 12 that debootstrap
# has just made, with no Go, no compiler and no display of its own. Usage, as root:
#
#	sh cmd/bare.sh [-run]
#
# -run leaves test.sh out. Needs some 6 GB in TMPDIR (or /var/tmp) and the network.
# Logs and a picture of the window go to out/bare. All mounts are those of a
# namespace, which the kernel ends with this script, however that ends.
set -eu
cd "$(dirname "$0")/.."
. cmd/setup.sh
suite=bookworm
only=
case ${1:-} in
'') ;;
-run) only=-run && shift ;;
-inside) ;; # this script itself: -inside FOLDER [-run]
*) echo "usage: sh cmd/bare.sh [-run]" >&2 && exit 2 ;;
esac
say() { echo "bare: $*"; }
fail() { echo "bare: FAILED: $*" >&2; exit 1; }
cant() { say "NOT CHECKED: $*"; exit 0; }

if [ "${1:-}" != -inside ]; then
	[ "$(id -u)" = 0 ] || cant "making a bare machine takes root (debootstrap, chroot, mount)"
	command -v apt-get >/dev/null 2>&1 || cant "making a bare machine takes a Debian or one of its kin"
	unshare --mount --pid --fork true 2>/dev/null || cant "no mounts can be made here (a container without the right to?)"
	need_go
	# shellcheck disable=SC2086
	need "A bare machine" debootstrap debian-archive-keyring $drive_packages
	top=$(mktemp -d "${TMPDIR:-/var/tmp}/fretband-bare.XXXXXX")
	xvfb= machine=
	finish() {
		[ -z "$xvfb" ] || kill "$xvfb" 2>/dev/null || true
		[ -z "$machine" ] || kill -9 "$machine" 2>/dev/null || true
		rm -rf --one-file-system "$top"
	}
	trap finish EXIT
	trap 'exit 1' INT TERM HUP
	# Out here, since it looks by their process numbers which displays are taken.
	mkfifo "$top/number"
	setpriv --pdeathsig TERM Xvfb -displayfd 3 -screen 0 1400x900x24 -nolisten tcp -ac 3>"$top/number" 2>/dev/null &
	xvfb=$!
	read -r n <"$top/number"
	DISPLAY=:$n setpriv --pdeathsig KILL unshare --mount --pid --fork --kill-child sh cmd/bare.sh -inside "$top" $only </dev/null &
	machine=$!
	code=0
	wait "$machine" || code=$?
	machine=
	exit $code
fi
top=$2
only=${3:-}

logs=$(pwd)/out/bare
rm -rf "$logs"
mkdir -p "$logs"
root=$top/root

# The machine: as debootstrap makes it, with this one's way to the network.
mirror=$(apt-get indextargets --format '$(REPO_URI) $(CODENAME)' 'Created-By: Packages' | sed -n "s,^\(http[^ ]*\) $suite\$,\1,p" | head -n 1)
say "a bare Debian ($suite) in $root, from ${mirror:=http://deb.debian.org/debian}"
debootstrap --variant=minbase "$suite" "$root" "$mirror" >"$logs/debootstrap.log" 2>&1 ||
	fail "debootstrap: $(tail -n 3 "$logs/debootstrap.log")"
apt-config dump | grep -E '^Acquire::(http|https|Check-)' >"$root/etc/apt/apt.conf.d/90here" || true
cp -L /etc/resolv.conf /etc/hosts "$root/etc/"
mkdir -p "$root/usr/local/share/ca-certificates"
find /usr/local/share/ca-certificates -name '*.crt' -exec cp {} "$root/usr/local/share/ca-certificates/" \;
mount --rbind /dev "$root/dev"
mount -t proc proc "$root/proc"
mkdir -p /tmp/.X11-unix "$root/tmp/.X11-unix"
mount --bind /tmp/.X11-unix "$root/tmp/.X11-unix"
chroot "$root" useradd -m maker
chroot "$root" useradd -m guest
for home in root home/maker home/guest; do
	mkdir "$root/$home/fretband"
	tar -c --exclude=./.git --exclude=./bin --exclude=./out . | tar -x -C "$root/$home/fretband"
	chroot "$root" chown -R "${home#*/}:" "/$home"
done

# as USER LOG SETTING... -- COMMAND... becomes that command in the copy of USER, with
# no one to ask.
as() {
	user=$1 log=$logs/$2
	shift 2
	home=/root
	[ "$user" = root ] || home=/home/$user
	given=
	while [ "$1" != -- ]; do given="$given $1" && shift; done
	shift
	for v in GOPROXY GOSUMDB GONOSUMDB GONOPROXY GOPRIVATE GOINSECURE; do
		[ -z "$(go env $v)" ] || given="$given $v=$(go env $v)"
	done
	for v in http_proxy https_proxy no_proxy HTTP_PROXY HTTPS_PROXY NO_PROXY; do
		eval "[ -z \"\${$v:-}\" ] || given=\"\$given $v=\$$v\""
	done
	# shellcheck disable=SC2086
	exec chroot "$root" setpriv --reuid="$user" --regid="$user" --init-groups env -i HOME="$home" USER="$user" \
		PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin $given \
		sh -c 'cd ~/fretband && exec "$@"' - "$@" >"$log" 2>&1 </dev/null
}
refuses() { # USER LOG WORDS SETTING...: run.sh ends at once and says what to do
	user=$1 log=$2 words=$3
	shift 3
	if (as "$user" "$log" "$@" -- sh cmd/run.sh); then
		fail "run.sh as $user: went well without the right to install"
	fi
	grep -q "$words" "$logs/$log" || fail "run.sh as $user: $(tail -n 3 "$logs/$log")"
	say "$(tail -n 1 "$logs/$log")"
}
! chroot "$root" sh -c 'command -v go || command -v gcc || command -v python3' || fail "the machine is not bare"

# Without a display.
refuses maker run-no-sudo.log 'as root and try again: apt-get install golang-go'
start=$(date +%s)
(as root run.log -- sh cmd/run.sh) || fail "run.sh: $(tail -n 5 "$logs/run.log")"
for f in .svg .dxf -template.pdf; do
	[ -s "$root/root/fretband/out/harbour-cuff/harbour-cuff$f" ] || fail "run.sh made no harbour-cuff$f"
done
grep 'fetching\|verified' "$logs/run.log" || fail "run.sh does not say that it fetches Go"
say "without a display run.sh made a design's files, in $(($(date +%s) - start)) s"
(as root run-again.log -- unshare --net sh cmd/run.sh) || fail "run.sh, again: $(tail -n 5 "$logs/run-again.log")"
say "the second time it needs no network"

# With a display, as one who may install by sudo and as one who may not.
chroot "$root" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends sudo >"$logs/sudo.log" 2>&1 || fail "no sudo: $(tail -n 3 "$logs/sudo.log")"
echo 'maker ALL=(ALL) NOPASSWD: ALL' >"$root/etc/sudoers.d/maker"
refuses guest run-guest.log 'as root and try again: apt-get install' "DISPLAY=$DISPLAY"
start=$(date +%s)
(as maker run-display.log "DISPLAY=$DISPLAY" -- sh cmd/run.sh) &
window=$!
until xdotool search --onlyvisible --name 'Fretband$' >/dev/null 2>&1; do
	kill -0 "$window" 2>/dev/null || fail "run.sh with a display: $(tail -n 5 "$logs/run-display.log")"
	sleep 1
done
say "with a display run.sh opened the window, in $(($(date +%s) - start)) s"
sleep 5
import -window root "$logs/window.png"
[ "$(identify -format %k "$logs/window.png")" -gt 100 ] || fail "nothing is drawn in the window: see $logs/window.png"
kill -0 "$window" 2>/dev/null || fail "the window closed by itself: $(tail -n 5 "$logs/run-display.log")"
kill "$window"

[ -z "$only" ] || { say "all well, test.sh left out"; exit 0; }
for display in '' "DISPLAY=$DISPLAY"; do
	start=$(date +%s)
	log=test${display:+-display}.log
	# shellcheck disable=SC2086
	(as root "$log" $display -- sh cmd/test.sh) || fail "test.sh ${display:-without a display}: $(tail -n 20 "$logs/$log")"
	say "test.sh ${display:-without a display}: all passed, in $(($(date +%s) - start)) s"
done
say "all well"
