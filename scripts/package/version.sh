#!/usr/bin/env bash
# version.sh prints the version of what is checked out, by SemVer 2.0.0: the number of
# FyneApp.toml where git has a tag v… of it here and nothing was changed since, or else what
# comes before it, with the time of the commit and its name.
set -euo pipefail
cd "$(dirname "$0")/../.."
number=$(sed -n 's/^ *Version = "\(.*\)"$/\1/p' FyneApp.toml)
found=$(git describe --tags --exact-match --match "v$number" --dirty 2>/dev/null || true)
if [ "$found" = "v$number" ]; then
	echo "$number"
	exit
fi
if [ -n "$(git tag --list "v$number")" ]; then
	echo "Can't name this version: $number is tagged already, elsewhere; raise it in FyneApp.toml, cmd/desk/command/version.go and CHANGELOG.md." >&2
	exit 1
fi
changed=
[ -z "$(git status --porcelain --untracked-files=no)" ] || changed=.changed
echo "$number-dev.$(TZ=UTC git log -1 --format=%cd --date=format-local:%Y%m%d%H%M%S)+g$(git rev-parse --short=10 HEAD)$changed"
