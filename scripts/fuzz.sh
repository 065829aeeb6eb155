#!/usr/bin/env bash
# fuzz.sh TIME runs every fuzz target of the repository for TIME, one after another, and prints
# what came of each. It fails if one fails; the input that did it then lies in the package's
# testdata/fuzz, and stays a case of its tests once it is committed.
# TARGETS: only those whose name fits this pattern.
set -uo pipefail
cd "$(dirname "$0")/.."
time="${1:-60s}"
log="$(mktemp)"
trap 'rm -f "$log"' EXIT

# Names stand before the line of the package that they are of.
dirs="$(grep -rl --include='*_test.go' '^func Fuzz' . | xargs -n 1 dirname | sort -u)"
listed="$(go test -list '^Fuzz' $dirs)" || { echo "$listed"; exit 1; }
targets="$(awk '/^Fuzz/ { names[n++] = $1 } /^ok/ { for (i = 0; i < n; i++) print $2, names[i]; n = 0 }' <<<"$listed" | grep -E "${TARGETS:-.}")"

failed=0
table=""
while read -r package name; do
    # Making interesting inputs smaller would take most of a short time.
    if go test -run '^$' -fuzz "^$name\$" -fuzztime "$time" -fuzzminimizetime 100x "$package" </dev/null >"$log" 2>&1; then
        result=held
    else
        result=FAILED
        failed=1
        cat "$log"
    fi
    execs="$(grep -oE 'execs: [0-9]+' "$log" | tail -1 | cut -d' ' -f2)"
    row="$(printf '%-28s %-34s %10s  %s' "${package#app.tonedesk/}" "$name" "${execs:-0}" "$result")"
    echo "$row"
    table+="$row"$'\n'
done <<<"$targets"

printf '\n%-28s %-34s %10s  %s\n%s' package target inputs "its law" "$table"
exit $failed
