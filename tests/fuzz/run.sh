#!/usr/bin/env bash
# Attacks one reader by machine: bash tests/fuzz/run.sh TARGET [SECONDS]
#
# TARGET is survey, logger, weather, table, sheet or photo. Needs a nightly compiler and cargo-fuzz;
# not part of .ci/run. Begins with the samples and the reference files, keeps what it finds worth
# keeping under target/fuzz/corpus, and what failed under target/fuzz/failed.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

target=$1
seconds=${2:-1800}
work=$PWD/target/fuzz
seeds=$work/seeds/$target
mkdir -p "$work/corpus/$target" "$work/failed/$target" "$seeds"

features=()
case $target in
    survey | table | sheet)
        cp sample-surveys/*.ron tests/file/format-*.ron tests/reference/winter_*.ron "$seeds/"
        ;;
    logger) find tests/reference/spellings -type f -size -200k -exec cp {} "$seeds/" \; ;;
    weather) cp tests/reference/*.epw "$seeds/" ;;
    photo) find sample-surveys icons -name '*.png' -size -60k -exec cp {} "$seeds/" \; ;;
    *)
        echo "there is no target $target" >&2
        exit 2
        ;;
esac
[[ $target == sheet || $target == photo ]] && features=(--features sheet)

cargo +nightly fuzz run --fuzz-dir tests/fuzz --target-dir "$work/build" "${features[@]}" "$target" \
    "$work/corpus/$target" "$seeds" -- -max_total_time="$seconds" -timeout=20 -rss_limit_mb=4096 \
    -artifact_prefix="$work/failed/$target/" -print_final_stats=1
