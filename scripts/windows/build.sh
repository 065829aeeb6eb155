#!/usr/bin/env bash
# build.sh makes build/windows/desk.exe with Debian's compiler for Windows: for 64-bit Intel, with
# its icon, its version and what it says to the system of itself. The same commit gives the same
# bytes, as for the other packages.
set -euo pipefail
cd "$(dirname "$0")/../.."
to=build/windows
cross=x86_64-w64-mingw32
version=$(scripts/package/version.sh)
numbers=${version%%[-+]*}
flags=0
case "$version" in *-*) flags=VS_FF_PRERELEASE ;; esac
mkdir -p "$to"

# The go command links what lies beside the source under such a name, for this system alone.
resource=cmd/desk/resource_windows_amd64.syso
made=$(mktemp -d)
trap 'rm -rf "$made"; rm -f "$resource"' EXIT
go run ./scripts/icons "$made/desk.ico"
for file in desk.rc desk.manifest; do
	sed "s/@VERSION@/$version/; s/@NUMBERS@/$numbers.0/; s/@COMMAS@/${numbers//./,},0/; s/@FLAGS@/$flags/" "scripts/windows/$file" >"$made/$file"
done
"$cross-windres" -I "$made" -i "$made/desk.rc" -O coff -o "$resource"

export CGO_ENABLED=1 CC=$cross-gcc GOOS=windows GOARCH=amd64
go build -trimpath -buildvcs=false -ldflags "-s -w -buildid= -H windowsgui -X app.tonedesk/cmd/desk/command.stamp=$version" -o "$to/desk.exe" ./cmd/desk
