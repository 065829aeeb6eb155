#!/usr/bin/env bash
# Installs the system packages that building and testing need and that are missing; with the
# word package those that building and making packages need, with windows those that building for
# Windows needs, and with wine those that testing that needs too.
set -euo pipefail

build="gcc libc6-dev pkg-config xorg-dev libgl1-mesa-dev libxkbcommon-dev"
screen="xvfb dbus-daemon openbox xdotool xclip imagemagick x11-utils x11-xserver-utils libgl1-mesa-dri poppler-utils"
wayland="pipewire wireplumber sway swaybg"
packages="git dpkg-dev desktop-file-utils appstream mandoc zip lintian debootstrap"
cross="gcc-mingw-w64-x86-64"
case "${1:-}" in
	package) screen=$packages wayland= ;;
	windows) screen=$cross wayland= ;;
	wine) screen="$screen $cross wine64" ;;
esac

if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
	case "$(uname -s)" in Linux) ;; *) exit 0 ;; esac
	if command -v gcc >/dev/null && [ -e /usr/include/X11/Xlib.h ] && [ -e /usr/include/GL/gl.h ]; then
		exit 0 # what building needs is there
	fi
	cat >&2 <<'END'
Tonedesk needs some system packages, and only knows how to install them on Debian and Ubuntu. Please install, then try again:
  Fedora: sudo dnf install golang gcc libX11-devel libXcursor-devel libXrandr-devel libXinerama-devel libXi-devel libXxf86vm-devel mesa-libGL-devel libxkbcommon-devel xorg-x11-server-Xvfb openbox xdotool xclip ImageMagick xrandr dbus-daemon pipewire wireplumber sway swaybg
  Arch:   sudo pacman -S go base-devel libx11 libxcursor libxrandr libxinerama libxi libxxf86vm mesa libxkbcommon xorg-server-xvfb openbox xdotool xclip imagemagick xorg-xrandr dbus pipewire wireplumber sway swaybg
END
	exit 1
fi

missing=()
for package in $build $screen $wayland; do
	state=$(dpkg-query -W -f='${db:Status-Abbrev}' "$package" 2>/dev/null || true)
	[ "${state:0:2}" = ii ] || missing+=("$package")
done
[ ${#missing[@]} -gt 0 ] || exit 0

echo "Installing what is missing: ${missing[*]}"
become=()
if [ "$(id -u)" != 0 ]; then
	if ! command -v sudo >/dev/null; then
		echo "These packages can only be installed by root, and sudo is missing. Please have them installed, then try again." >&2
		exit 1
	fi
	become=(sudo)
fi
"${become[@]}" apt-get update -qq
"${become[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
