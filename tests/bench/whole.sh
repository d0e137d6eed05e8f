#!/bin/sh
# Time of whole processes, of each example `rank`, `rank --full` and `price`, in ms: least, middle, most of some runs.
# usage: sh tests/bench/whole.sh [PROGRAM [RUNS]]
set -eu
cd "$(dirname "$0")/../.."
program=${1:-target/release/counterpoise}
runs=${2:-20}
[ -n "${1:-}" ] || cargo build --release --quiet

# Time of one process, in hundredths of a ms.
once() {
    from=$(date +%s%N)
    # Where no drive fits, the study is made all the same.
    "$program" "$@" >/dev/null || [ $? -eq 3 ]
    echo $((($(date +%s%N) - from) / 10000))
}

for example in examples/*.json; do
    printf '%-16s' "$(basename "$example" .json)"
    for command in rank 'rank --full' price; do
        run=0
        while [ "$run" -lt "$runs" ]; do
            # shellcheck disable=SC2086 # a command and its flag are two words
            once $command "$example"
            run=$((run + 1))
        done | sort -n | awk '{ t[NR] = $1 / 100 }
            END { m = int((NR + 1) / 2); printf "  %8.1f %8.1f %8.1f", t[1], (t[m] + t[NR + 1 - m]) / 2, t[NR] }'
    done
    echo
done
