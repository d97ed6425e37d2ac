#!/usr/bin/env bash
# Works the real program under a virtual display as a surveyor would: adds a gap by mouse on the
# unfolded body, drags it, undoes that, types a gap by keyboard alone, saves, quits, opens the
# file again, and compares.
#
#   tests/smoke/survey.sh [PROGRAM]
#
# Needs xvfb, xdotool, imagemagick and python3. Pictures stay in target/smoke. The program works
# on an invented survey in a folder of its own and with a home of its own.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

program=${1:-target/debug/gapledger}
source tests/smoke/display.sh

survey=$scratch/survey.ron

# An invented caravan with all its outside sizes and no gap.
write_survey() {
    cat >"$survey" <<'RON'
#![enable(implicit_some)]
(
  format: 2,
  header: (title: "Invented caravan", scene: "Made up to work the window."),
  vehicle: (
    kind: touring_caravan,
    length_m: 5.13, width_m: 2.27, height_m: 2.57, floor_height_m: 0.53,
    inside_length_m: 5.0, inside_width_m: 2.1, inside_height_m: 1.95,
  ),
  zones: [(id: 1, name: "walls"), (id: 2, name: "floor")],
)
RON
}

# One value of the ledger: value GAP COLUMN.
value() {
    "$program" gaps "$survey" -o "$scratch/gaps.csv"
    python3 - "$scratch/gaps.csv" "$1" "$2" <<'PY'
import csv, sys
path, gap, column = sys.argv[1:]
rows = [row for row in csv.DictReader(open(path, encoding="utf-8")) if row["gap"] == gap]
print(rows[0][column] if rows else "no such gap")
PY
}

gaps_saved() {
    grep --count --fixed-strings 'facing:' "$survey" || true
}

key() {
    xdotool key --delay 40 "$@"
    sleep 0.25
}

# Saves, and waits until the file holds so many gaps and is not as it was before.
save() {
    local wanted=$1 deadline=$((SECONDS + longest_wait_s)) before
    before=$(cat "$survey")
    key ctrl+s
    until [[ $(gaps_saved) == "$wanted" && $(cat "$survey") != "$before" ]]; do
        still_runs
        ((SECONDS < deadline)) || {
            picture failed.png
            fail "the saved survey does not hold $wanted gaps, or was not saved"
        }
        sleep 0.1
    done
}

picture() {
    import -window root "$pictures/$1"
}

# Presses at a point and moves the mouse in small steps, as a hand does.
drag() {
    local x=$1 y=$2 dx=$3 step
    xdotool mousemove "$x" "$y"
    sleep 0.2
    xdotool mousedown 1
    for ((step = 1; step <= 10; step++)); do
        xdotool mousemove "$((x + dx * step / 10))" "$y"
        sleep 0.04
    done
    sleep 0.3
    xdotool mouseup 1
    sleep 0.3
}

quit() {
    local deadline=$((SECONDS + longest_wait_s))
    key ctrl+q
    while kill -0 "$program_pid" 2>/dev/null; do
        ((SECONDS < deadline)) || fail "the program does not quit"
        sleep 0.1
    done
    wait "$program_pid" || fail "the program ended with an error"
    program_pid=
}

more() {
    python3 -c 'import sys; sys.exit(not float(sys.argv[1]) > float(sys.argv[2]))' "$1" "$2"
}

open_survey() {
    start_program "$survey"
    wait_for_window
    wait_for_picture "$1"
    xdotool windowfocus "$(head -n 1 "$scratch/window.txt")"
    sleep 1
    key ctrl+2
    sleep 0.5
}

write_survey
check_tools
command -v python3 >/dev/null || fail "python3 is not installed"
start_display
open_survey opened

# The message about saving takes a line of the window: let it be there before the mouse is used.
key ctrl+s
sleep 1
# On the nearside, below the roof in the drawing, which fills the left of the page.
x=150
y=478
xdotool mousemove "$x" "$y" click 1
sleep 0.7
save 1
picture added.png
facing=$(value 1 facing)
along=$(value 1 along_m)
height=$(value 1 height_above_ground_m)
[[ -n $along && -n $height ]] || fail "a click on the body gave no place: along $along, height $height"
echo "added by mouse: $facing, $along m from the front, $height m above ground"

drag "$x" "$y" 60
save 1
picture dragged.png
dragged=$(value 1 along_m)
[[ $(value 1 facing) == "$facing" ]] || fail "the drag along its face changed the facing"
more "$dragged" "$along" || fail "the drag to the right did not move the gap to the rear: $dragged"
echo "dragged to $dragged m"

key ctrl+z
save 1
[[ $(value 1 along_m) == "$along" ]] || fail "one undo does not take the drag back"
echo "undone: $(value 1 along_m) m"

# The bar: a cable hole, 25 mm with a bundle of 12 mm, 1.5 m from the front, 0.7 m across.
key ctrl+e
key c c
key Tab
xdotool type --delay 40 "25"
key Tab
xdotool type --delay 40 "2*6"
key Tab Tab
xdotool type --delay 40 "1,5"
key Tab
xdotool type --delay 40 "0,7"
key Return
sleep 0.5
picture typed.png
save 2
for pair in name="cable hole" form=ring_gap hole_mm=25 pipe_mm=12 along_m=1.5 across_m=0.7 \
    facing=underfloor certainty=estimated purpose=unintended; do
    found=$(value 2 "${pair%%=*}")
    [[ $found == "${pair#*=}" ]] || fail "typed gap: ${pair%%=*} is $found, not ${pair#*=}"
done
echo "typed by keyboard: $(value 2 name), $(value 2 eqla_10pa_mm2) mm²"

cp "$survey" "$scratch/saved.ron"
"$program" assess "$survey" --json >"$scratch/before.json"
quit
open_survey reopened
key ctrl+2
quit
cmp "$survey" "$scratch/saved.ron" || fail "opening the survey again changed its file"
"$program" assess "$survey" --json >"$scratch/after.json"
cmp "$scratch/before.json" "$scratch/after.json" || fail "the results changed"
if [[ -s $scratch/program.log ]]; then
    fail "the program printed something"
fi
echo "saved, quit, opened again: the same two gaps and the same results"
