# What the tests of the real window share: a virtual display, the program on it, pictures of it.
# To be sourced, with the working directory at the top of the package.

pictures=${CARGO_TARGET_DIR:-target}/smoke
longest_wait_s=60
# A picture with text in it has hundreds of colours; an empty window or screen has one or two.
fewest_colours=64

scratch=$(mktemp -d)
display_pid=
program_pid=

end_process() {
    local pid=$1
    if [[ -n $pid ]] && kill -0 "$pid" 2>/dev/null; then
        kill "$pid" 2>/dev/null || true
    fi
    if [[ -n $pid ]]; then
        wait "$pid" 2>/dev/null || true
    fi
}

tidy_up() {
    end_process "$program_pid"
    end_process "$display_pid"
    rm -rf "$scratch"
}
trap tidy_up EXIT

fail() {
    echo "FAILED: $*" >&2
    if [[ -s $scratch/program.log ]]; then
        echo "the program said:" >&2
        cat "$scratch/program.log" >&2
    fi
    exit 1
}

# Starts a virtual display on the first free number from 99 on.
# It must not reset when its last client leaves: the next client would find it closed.
start_display() {
    local number waited
    for number in {99..199}; do
        if [[ -e /tmp/.X$number-lock || -e /tmp/.X11-unix/X$number ]]; then
            continue
        fi
        Xvfb ":$number" -screen 0 1400x900x24 -nolisten tcp -noreset >"$scratch/display.log" 2>&1 &
        display_pid=$!
        for ((waited = 0; waited < 100; waited++)); do
            if ! kill -0 "$display_pid" 2>/dev/null; then
                break # somebody else took the number first
            fi
            if DISPLAY=:$number xdotool getdisplaygeometry >/dev/null 2>&1; then
                export DISPLAY=:$number
                echo "display $DISPLAY"
                return
            fi
            sleep 0.1
        done
        end_process "$display_pid"
        display_pid=
    done
    cat "$scratch/display.log" >&2
    fail "no virtual display could be started"
}

# Starts $program with these arguments and with a home of its own.
start_program() {
    mkdir -p "$scratch/home" "$scratch/run"
    chmod 700 "$scratch/run"
    env --unset=WAYLAND_DISPLAY --unset=WAYLAND_SOCKET HOME="$scratch/home" \
        XDG_DATA_HOME="$scratch/home/data" XDG_CONFIG_HOME="$scratch/home/config" \
        XDG_CACHE_HOME="$scratch/home/cache" XDG_RUNTIME_DIR="$scratch/run" \
        LIBGL_ALWAYS_SOFTWARE=1 \
        "$program" "$@" >"$scratch/program.log" 2>&1 &
    program_pid=$!
}

still_runs() {
    kill -0 "$program_pid" 2>/dev/null || fail "the program ended by itself"
}

wait_for_window() {
    local deadline=$((SECONDS + longest_wait_s))
    until xdotool search --onlyvisible --name Gapledger >"$scratch/window.txt" 2>/dev/null; do
        still_runs
        ((SECONDS < deadline)) || fail "no window named Gapledger within $longest_wait_s s"
        sleep 0.1
    done
    echo "window \"$(xdotool getwindowname "$(head -n 1 "$scratch/window.txt")")\""
}

# The first frame may come a little after the window: look until there is something to see. Takes
# the picture's name.
wait_for_picture() {
    local picture=$pictures/$1.png
    local deadline=$((SECONDS + longest_wait_s)) colours=0 window
    window=$(head -n 1 "$scratch/window.txt")
    mkdir -p "$pictures"
    while true; do
        still_runs
        if import -window "$window" "$picture" 2>"$scratch/import.log"; then
            colours=$(identify -format '%k' "$picture")
        fi
        if ((colours >= fewest_colours)); then
            break
        fi
        ((SECONDS < deadline)) || fail "the picture is blank: $colours colours after $longest_wait_s s"
        sleep 0.2
    done
    echo "picture $picture: $(identify -format '%wx%h' "$picture"), $colours colours"
}

check_tools() {
    local needed
    for needed in Xvfb xdotool import identify; do
        command -v "$needed" >/dev/null || fail "$needed is not installed"
    done
    [[ -x $program ]] || fail "there is no program at $program: run cargo build"
    [[ -f $survey ]] || fail "there is no survey at $survey"
}
