#!/usr/bin/env bash
# Kills the real program five times while it has unsaved changes, and sees each time that it offers
# them again: on the start page, and when the survey's file is opened.
#
#   tests/smoke/rescue.sh [PROGRAM [SURVEY]]
#
# Needs xvfb, xdotool and imagemagick. Pictures stay at target/smoke/rescue-*.png. The program works
# on a copy of the survey and with a home of its own, so nothing of yours is touched.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

program=${1:-target/debug/gapledger}
survey=${2:-sample-surveys/farmyard-caravan.ron}
source tests/smoke/display.sh

# Work older than this is never lost.
lost_at_most_s=3
file=$scratch/survey.ron
rescue=$scratch/home/data/gapledger/rescue

keys() {
    xdotool key --delay 60 "$@"
    sleep 0.3
}

focus_window() {
    xdotool windowfocus "$(head -n 1 "$scratch/window.txt")"
    sleep 0.5
}

# Adds a gap and names it.
add_gap() {
    keys ctrl+n
    xdotool type --delay 30 "$1"
    keys Tab
}

rescued_files() {
    find "$rescue" -name '*.ron' 2>/dev/null
}

wait_until() {
    local what=$1 deadline=$((SECONDS + longest_wait_s))
    shift
    until "$@"; do
        ((SECONDS < deadline)) || fail "$what"
        sleep 0.1
    done
}

nothing_to_rescue() {
    [[ -z $(rescued_files) ]]
}

check_tools
start_display
cp "$survey" "$file"

for number in 1 2 3 4 5; do
    name="rescued number $number"
    cp "$file" "$scratch/before.ron"
    start_program "$file"
    wait_for_window
    wait_for_picture "rescue-$number-before"
    focus_window
    add_gap "$name"
    sleep "$lost_at_most_s"
    # What comes after may be lost, but may damage nothing: the kill comes at some moment of it.
    xdotool type --delay 30 "$number$number$number"
    sleep "0.$((RANDOM % 10))"
    kill -KILL "$program_pid"
    wait "$program_pid" 2>/dev/null || true

    cmp --silent "$file" "$scratch/before.ron" || fail "kill $number: the file was changed"
    left=$(rescued_files)
    [[ -f $left ]] || fail "kill $number: there is not one rescue file: $left"
    grep --quiet --fixed-strings "$name" "$left" || fail "kill $number: \"$name\" was lost"
    "$program" check "$left" >"$scratch/check.txt" || [[ $? == [13] ]] ||
        fail "kill $number: what was rescued is damaged: $(cat "$scratch/check.txt")"

    # Once by the start page, once by the file: either way the offer has the focus.
    if ((number % 2)); then
        start_program
    else
        start_program "$file"
    fi
    wait_for_window
    wait_for_picture "rescue-$number-offered"
    focus_window
    sleep 0.5
    wait_for_picture "rescue-$number-offered"
    keys Return
    wait_for_picture "rescue-$number-opened"
    keys ctrl+s
    wait_until "kill $number: saving did not bring \"$name\" into the file" \
        grep --quiet --fixed-strings "$name" "$file"
    wait_until "kill $number: the rescue file stays after saving" nothing_to_rescue
    keys ctrl+q
    wait "$program_pid" || fail "kill $number: the program did not end well"
    program_pid=
    if [[ -s $scratch/program.log ]]; then
        fail "the program printed something"
    fi
    echo "kill $number: \"$name\" was rescued, offered, opened and saved"
done
