#!/usr/bin/env bash
# Starts the real program on a survey under a virtual display, waits for its first frame, checks
# that a picture of it is not blank, and ends it.
#
#   tests/smoke/window.sh [PROGRAM [SURVEY]]
#
# Needs xvfb, xdotool and imagemagick. The picture stays at target/smoke/window.png. The program
# works on a copy of the survey and with a home of its own, so nothing of yours is touched.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

program=${1:-target/debug/gapledger}
survey=${2:-sample-surveys/farmyard-caravan.ron}
source tests/smoke/display.sh

check_tools
start_display
cp "$survey" "$scratch/survey.ron"
start_program "$scratch/survey.ron"
wait_for_window
wait_for_picture window
still_runs
cmp --silent "$survey" "$scratch/survey.ron" || fail "looking at a survey changed its file"
if [[ -s $scratch/program.log ]]; then
    fail "the program printed something"
fi
echo "the window stands, shows a picture, and left the survey alone"
