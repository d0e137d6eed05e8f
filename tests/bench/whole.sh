#!/bin/sh
# Time of the whole process, 20 runs of each example, in ms: least, middle, most.
# usage: sh tests/bench/whole.sh [PROGRAM]
set -eu
cd "$(dirname "$0")/../.."
program=${1:-target/release/counterpoise}
[ -n "${1:-}" ] || cargo build --release --quiet
for example in examples/*.json; do
    run=0
    while [ "$run" -lt 20 ]; do
        from=$(date +%s%N)
        "$program" rank "$example" >/dev/null
        echo $((($(date +%s%N) - from) / 10000))
        run=$((run + 1))
    done | sort -n | awk -v name="$(basename "$example" .json)" \
        '{ t[NR] = $1 / 100 } END { printf "%-14s %7.1f %7.1f %7.1f\n", name, t[1], (t[10] + t[11]) / 2, t[NR] }'
done
