#!/usr/bin/env bash
# Takes the pictures of the real window that README.md shows: one of each page.
#
#   tests/pictures/readme.sh [PROGRAM]
#
# Needs xvfb, xdotool and imagemagick. The pictures go to tests/pictures/readme-PAGE.png.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
program=${1:-target/debug/gapledger}
scratch=$(mktemp -d)
trap 'kill $(jobs -p) 2>/dev/null || true; rm -rf "$scratch"' EXIT

display=
for number in {99..199}; do
    if [[ ! -e /tmp/.X$number-lock ]]; then
        display=:$number
        break
    fi
done
Xvfb "$display" -screen 0 1280x800x24 -nolisten tcp -noreset >"$scratch/display.log" 2>&1 &
export DISPLAY=$display
until xdotool getdisplaygeometry >/dev/null 2>&1; do sleep 0.1; done

cp sample-surveys/farmyard-caravan.ron "$scratch/farmyard-caravan.ron"
env --unset=WAYLAND_DISPLAY HOME="$scratch" XDG_DATA_HOME="$scratch/data" \
    XDG_CONFIG_HOME="$scratch/config" LIBGL_ALWAYS_SOFTWARE=1 \
    "$program" "$scratch/farmyard-caravan.ron" >"$scratch/program.log" 2>&1 &
window=
until [[ -n $window ]]; do
    sleep 0.2
    window=$(xdotool search --onlyvisible --name Gapledger | tail -n 1 || true)
done
sleep 2
xdotool windowfocus "$window"
# To where nothing explains itself when the pointer rests on it.
xdotool mousemove 1270 790
number=1
for page in vehicle gaps air-change drying-heat sealing-plan job-sheet; do
    xdotool key "ctrl+$number"
    # The order of sealing and the pages of the job sheet come from workers, after the page.
    case $page in
    sealing-plan | job-sheet) sleep 20 ;;
    *) sleep 1 ;;
    esac
    picture=tests/pictures/readme-$page.png
    import -window "$window" -depth 8 "$picture"
    # Fewer colours, a small file: text and flat surfaces lose nothing.
    convert "$picture" -strip -colors 128 "PNG8:$picture"
    echo "$picture"
    number=$((number + 1))
done
