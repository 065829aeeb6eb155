#!/usr/bin/env bash
# Reads the output of go test -bench -count N and prints, for every benchmark and unit, the
# median of its runs, and their spread: the least and the most.
# Where a benchmark wrote something itself, its values stand on a later line than its name.
awk 'function take(first) {
	for (i = first; i < NF; i += 2) {
		key = name SUBSEP $(i+1)
		if (!(key in count)) order[++keys] = key
		values[key, ++count[key]] = $i
	}
}
/^Benchmark/ {
	name = $1; sub(/-[0-9]+$/, "", name); sub(/^Benchmark/, "", name)
	if (/ns\/op/) take(3)
	next
}
/^ *[0-9]+[ \t].* ns\/op/ { take(2) }
END {
	for (k = 1; k <= keys; k++) {
		key = order[k]; n = count[key]
		for (i = 1; i <= n; i++) v[i] = values[key, i] + 0
		for (i = 2; i <= n; i++) { x = v[i]; for (j = i - 1; j > 0 && v[j] > x; j--) v[j+1] = v[j]; v[j+1] = x }
		split(key, part, SUBSEP)
		printf "  %-44s %12.5g %-14s (%.4g to %.4g)\n", part[1], v[int((n + 1) / 2)], part[2], v[1], v[n]
	}
}'
