#!/usr/bin/env bash
# check.sh looks at what package.sh made: the desktop's files by their own tools, the bytes by a
# second build elsewhere with nothing kept from the first, and the packages by installing,
# running and removing them: the .deb on a bare Debian in a folder (needs root), the .tar.gz for
# a user of its own.
set -euo pipefail
cd "$(dirname "$0")/../.."
made=$PWD/build/package
version=$(scripts/package/version.sh)
case $version in *.changed)
	echo "Can't build this again elsewhere: something isn't committed; commit it first." >&2
	exit 1
	;;
esac
if [ "$(id -u)" != 0 ]; then
	echo "Can't install packages for a try: that needs root; run it as root." >&2
	exit 1
fi
work=$(mktemp -d)
trap 'git worktree remove --force "$work/again" 2>/dev/null || true; rm -rf "$work"' EXIT
deb=("$made"/*.deb)
tar=("$made"/*.tar.gz)

echo "The desktop's files."
dpkg-deb -x "${deb[0]}" "$work/deb"
desktop-file-validate "$work/deb/usr/share/applications/app.tonedesk.desktop"
appstreamcli validate --no-net "$work/deb/usr/share/metainfo/app.tonedesk.desk.metainfo.xml"
gzip -dc "$work/deb/usr/share/man/man1/desk.1.gz" >"$work/desk.1"
mandoc -T lint -W warning "$work/desk.1"
# Debian's own. Its maintainers have an address; ours are reached as SECURITY.md says.
lintian --fail-on error --suppress-tags malformed-contact "${deb[0]}"
(cd "$made" && sha256sum --quiet -c SHA256SUMS)

echo "The .tar.gz for one user."
mkdir "$work/user"
tar -C "$work" -xzf "${tar[0]}"
unpacked=$work/$(basename "${tar[0]%-linux-*}")
HOME=$work/user sh "$unpacked/install.sh"
desktop-file-validate "$work/user/.local/share/applications/app.tonedesk.desktop"
[ "$(HOME=$work/user "$work/user/.local/bin/desk" --version)" = "Tonedesk $version" ]
HOME=$work/user sh "$work/user/.local/share/doc/tonedesk/install.sh" remove
left=$(find "$work/user" -type f ! -name '*.cache') # these are the desktop's
[ -z "$left" ] || { echo "It left $left" >&2; exit 1; }

echo "The .deb on a bare $(. /etc/os-release && echo "$VERSION_CODENAME")."
root=$work/root
debootstrap --variant=minbase "$(. /etc/os-release && echo "$VERSION_CODENAME")" "$root" >"$work/log" || { tail "$work/log" >&2; exit 1; }
inside() { DEBIAN_FRONTEND=noninteractive chroot "$root" "$@"; }
cp "${deb[0]}" "$root/tonedesk.deb"
cp assets/demo.png "$root/"
inside apt-get install -qq -y --no-install-recommends /tonedesk.deb >"$work/log" 2>&1 || { tail "$work/log" >&2; exit 1; }
[ "$(inside desk --version)" = "Tonedesk $version" ]
inside desk read /demo.png | grep lightness >/dev/null # -q would close the pipe on what still writes
inside dpkg -L tonedesk | while read -r path; do [ -d "$root$path" ] || echo "$path"; done >"$work/files"
inside apt-get purge -qq -y tonedesk >"$work/log" 2>&1 || { tail "$work/log" >&2; exit 1; }
while read -r path; do [ ! -e "$root$path" ] || { echo "It left $path" >&2; exit 1; }; done <"$work/files"
rm -rf --one-file-system "$root"

echo "The same bytes, built again elsewhere."
git worktree add -q --detach "$work/again"
[ ! -e build/windows/desk.exe ] || GOCACHE=$work/cache "$work/again/scripts/windows/build.sh"
GOCACHE=$work/cache "$work/again/scripts/package/package.sh" >/dev/null
diff -r "$made" "$work/again/build/package"
echo "All is well."
