#!/usr/bin/env bash
# package.sh makes build/package: a .deb, a .tar.gz for other Linux, a .zip for Windows where
# build/windows/desk.exe is there, a list of what is in them (CycloneDX), and SHA256SUMS. The
# same commit on the same system gives the same bytes. Debian and Ubuntu.
set -euo pipefail
cd "$(dirname "$0")/../.."
nfpm=github.com/goreleaser/nfpm/v2/cmd/nfpm@v2.43.0
umask 022
export TZ=UTC LC_ALL=C

SOURCE_DATE_EPOCH=$(git log -1 --format=%ct)
VERSION=$(scripts/package/version.sh)
ARCH=$(go env GOARCH)
date=$(date -d "@$SOURCE_DATE_EPOCH" +%F)
to=build/package
TREE=$to/tree
export SOURCE_DATE_EPOCH VERSION ARCH TREE
rm -rf "$to"
mkdir -p "$TREE"/{bin,share/{applications,metainfo,man/man1,doc/tonedesk}}

# By -buildmode=pie the system may load it, and its C, at any address. The version stands in -X: what git says of a folder would differ in another.
go build -buildmode=pie -trimpath -buildvcs=false -ldflags "-s -w -buildid= -X app.tonedesk/cmd/desk/command.stamp=$VERSION" -o "$TREE/bin/desk" ./cmd/desk

# fill FILE prints a template, with the command's help made safe for troff.
fill() {
	LC_ALL=C "$TREE/bin/desk" help | sed 's/\\/\\e/g; s/-/\\-/g; s/^\([.'\'']\)/\\\&\1/' >"$to/help"
	sed -e "s/@VERSION@/$VERSION/; s/@DATE@/$date/" -e "/^@HELP@/{r $to/help" -e 'd;}' "$1"
	rm "$to/help"
}
share=$TREE/share
go run ./scripts/icons "$share/icons"
cp scripts/package/app.tonedesk.desktop "$share/applications/"
fill scripts/package/app.tonedesk.desk.metainfo.xml | sed '/^<!--.*package.sh/d' >"$share/metainfo/app.tonedesk.desk.metainfo.xml"
fill scripts/package/desk.1 | sed 1d | gzip -9n >"$share/man/man1/desk.1.gz"
cp LICENSE "$share/doc/tonedesk/copyright"
cp THIRD_PARTY.md "$share/doc/tonedesk/"
gzip -9n <CHANGELOG.md >"$share/doc/tonedesk/changelog.gz"
find "$TREE" -type f -exec chmod 644 {} +
chmod 755 "$TREE/bin/desk"
find "$TREE" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +

# Of the libraries that it is linked with, the packages. The tool wants a source package.
source=$(mktemp -d)
trap 'rm -rf "$source"' EXIT
install -D "$TREE/bin/desk" "$source/debian/tonedesk/usr/bin/desk"
mkdir "$source/debian/tonedesk/DEBIAN"
printf 'Source: tonedesk\n\nPackage: tonedesk\nArchitecture: any\n' >"$source/debian/control"
DEPENDS=$(cd "$source" && dpkg-shlibdeps -O debian/tonedesk/usr/bin/desk | sed -n 's/^shlibs:Depends=//p')
export DEPENDS
GOFLAGS='' go run "$nfpm" package -f scripts/package/nfpm.yaml -p deb -t "$to" >"$source/log" || { cat "$source/log" >&2; exit 1; }

# For other Linux: the same files, and the script that installs them.
name=tonedesk-$VERSION
mv "$TREE" "$to/$name"
mkdir "$TREE"
cp scripts/package/install.sh "$to/$name/"
chmod 755 "$to/$name/install.sh"
find "$to/$name" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
tar -C "$to" --format=gnu --sort=name --owner=0 --group=0 --numeric-owner -c "$name" | gzip -9n >"$to/$name-linux-$ARCH.tar.gz"
go run ./scripts/sbom -version "$VERSION" -time "$SOURCE_DATE_EPOCH" "$to/$name/bin/desk" >"$to/$name-linux-$ARCH.cdx.json"
rm -rf "$TREE" "${to:?}/$name"

if [ -e build/windows/desk.exe ]; then
	if ! grep -qaF "$VERSION" build/windows/desk.exe; then
		echo "Can't pack build/windows/desk.exe: it is of another version; run make windows, or remove it." >&2
		exit 1
	fi
	mkdir "$to/$name"
	cp build/windows/desk.exe "$to/$name/"
	for file in LICENSE README.md THIRD_PARTY.md CHANGELOG.md; do cp "$file" "$to/$name/"; done
	find "$to/$name" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
	(cd "$to" && find "$name" -type f | sort | zip -9qX "$name-windows-amd64.zip" -@)
	go run ./scripts/sbom -version "$VERSION" -time "$SOURCE_DATE_EPOCH" "$to/$name/desk.exe" >"$to/$name-windows-amd64.cdx.json"
	rm -rf "${to:?}/$name"
fi
(cd "$to" && sha256sum -- * >../sums && mv ../sums SHA256SUMS)
(cd "$to" && ls -l | awk 'NR > 1 {print $5, $NF}')
