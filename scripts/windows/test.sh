#!/usr/bin/env bash
# test.sh tests the program for Windows under Wine, in a folder of Windows of its own that is thrown
# away: packages, then build/windows/desk.exe by the same tests as the one for Linux, on virtual
# screens. TEST_PACKAGES, TEST_PROGRAM and TEST_SKIP say what runs; the Makefile has them. Wine is Debian's.
set -euo pipefail
cd "$(dirname "$0")/../.."
exe=$PWD/build/windows/desk.exe
cross=x86_64-w64-mingw32
made=$(mktemp -d)
export WINEPREFIX=$made/wine
export WINEDEBUG=-all WINEDLLOVERRIDES='mscoree,mshtml=' # neither .NET nor a browser is asked for
server=$(command -v wineserver || echo /usr/lib/wine/wineserver)
trap '"$server" -k || true; rm -rf "$made"' EXIT

mkdir "$made/home"
HOME=$made/home DISPLAY='' /usr/lib/wine/wine64 wineboot --init >"$made/boot" 2>&1 || { cat "$made/boot" >&2; exit 1; }
# Debian's Wine ends all that it runs with the last program, and starts it anew with the next, which takes
# longer than all that a command does: so it stays.
"$server" -k || true
"$server" -w
"$server" -p
"$cross-gcc" -O2 -s -Wall -shared -o "$WINEPREFIX/drive_c/windows/system32/bcryptprimitives.dll" scripts/windows/prng.c -ladvapi32
"$cross-gcc" -O2 -s -Wall -municode -o "$made/launch.exe" scripts/windows/launch.c

# Debian 12's Wine does not know the call by which Go deletes folders, nor says so in the way for which
# Go has another one: here Go takes that at once. The built program does without: there Windows has it.
over=build/windows/overlay
mkdir -p "$over"
source=$(go env GOROOT)/src/internal/syscall/windows/at_windows.go
sed 's/^var TestDeleteatFallback bool$/var TestDeleteatFallback = true/' "$source" >"$over/at_windows.go"
if cmp -s "$source" "$over/at_windows.go"; then
	echo "Can't have Go delete folders under Wine: its source is another; look at scripts/windows/test.sh." >&2
	exit 1
fi
printf '{"Replace": {"%s": "%s"}}\n' "$source" "$PWD/$over/at_windows.go" >"$over/overlay.json"

failed=0
if [ -n "${TEST_PACKAGES:-}" ]; then
	mkfifo "$made/number"
	Xvfb -displayfd 5 -noreset -screen 0 1400x1000x24 5>"$made/number" >/dev/null 2>&1 &
	screen=$!
	read -r number <"$made/number"
	DISPLAY=:$number /usr/lib/wine/wine64 wineboot </dev/null >/dev/null 2>&1 # what stays must not hold the streams of a test
	# shellcheck disable=SC2086
	DISPLAY=:$number GOOS=windows CGO_ENABLED=0 go test -short -vet=off -overlay "$over/overlay.json" -p 1 -exec /usr/lib/wine/wine64 $TEST_PACKAGES || failed=1
	"$server" -k || true
	kill "$screen"
fi

# The program, as a test on Linux runs it: its user's folders are the test's own. What Wine keeps running
# draws on the display that it was started on: another one, or none, wants it started anew.
cat >"$made/desk" <<END
#!/bin/sh
export WINEPREFIX='$WINEPREFIX' WINEDEBUG=-all WINEDLLOVERRIDES='mscoree,mshtml='
export TEST_APPDATA="\$XDG_CONFIG_HOME" TEST_LOCALAPPDATA="\${XDG_DATA_HOME:-\$HOME/data}" TEST_USERPROFILE="\$HOME" HOME='$made/home'
if [ "\${DISPLAY:-none}" != "\$(cat '$made/display' 2>/dev/null)" ]; then
	{
		'$server' -k
		'$server' -w
		'$server' -p
		/usr/lib/wine/wine64 wineboot
	} </dev/null >/dev/null 2>&1
	printf %s "\${DISPLAY:-none}" >'$made/display'
fi
exec /usr/lib/wine/wine64 '$made/launch.exe' '$exe' "\$@"
END
chmod +x "$made/desk"
if [ -n "${TEST_PROGRAM:-}" ]; then
	TONEDESK_PROGRAM=$made/desk TONEDESK_NEED_X=1 go test -vet=off -count 1 -p 1 -timeout 3h ./cmd/desk -run "$TEST_PROGRAM" -skip "${TEST_SKIP:-^$}" || failed=1
fi
exit $failed
