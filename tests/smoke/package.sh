#!/usr/bin/env bash
# Installs the Debian package on a bare system, uses it, opens a survey by its kind of file, and
# removes it again without a trace.
#
#   tests/smoke/package.sh PACKAGE.deb [BARE]
#
# As root. Needs debootstrap, xvfb, xdotool and imagemagick. BARE is a folder with a bare Debian in
# it; without one it is fetched. Either way the work is done in a copy, and nothing of this system
# is changed. Not part of .ci/run, which builds no release.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."

package=$(realpath "$1")
bare=${2:-}
program=$package
survey=sample-surveys/farmyard-caravan.ron
source tests/smoke/display.sh

root=$scratch/root
samples=/usr/share/doc/gapledger/sample-surveys

# Ends what runs from the bare system: xdg-open starts the program as a process of its own.
end_installed() {
    local process
    for process in /proc/[0-9]*; do
        if [[ $(readlink "$process/exe" 2>/dev/null) == "$root/usr/bin/gapledger" ]]; then
            kill "${process#/proc/}" 2>/dev/null || true
        fi
    done
}

leave_root() {
    end_installed
    end_process "$program_pid"
    program_pid=
    umount --lazy "$root/tmp/.X11-unix" "$root/proc" "$root/dev" 2>/dev/null || true
    tidy_up
}
trap leave_root EXIT

inside() {
    chroot "$root" env --ignore-environment PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/home/owner \
        LANG=C.UTF-8 DEBIAN_FRONTEND=noninteractive DISPLAY="${DISPLAY:-}" \
        LIBGL_ALWAYS_SOFTWARE=1 XDG_RUNTIME_DIR=/run "$@"
}

every_file() {
    (cd "$root" && find . -xdev \( -path ./proc -o -path ./dev -o -path ./tmp -o -path ./var \) \
        -prune -o -name '*gapledger*' -print -o -name '*Gapledger*' -print) | sort
}

for needed in debootstrap Xvfb xdotool import identify; do
    command -v "$needed" >/dev/null || fail "$needed is not installed"
done

echo "=== a bare Debian"
if [[ -n $bare ]]; then
    cp --archive "$bare" "$root"
else
    debootstrap --variant=minbase bookworm "$root" >"$scratch/program.log" 2>&1 ||
        fail "no bare Debian could be fetched"
fi
mount --bind /dev "$root/dev"
mount --bind /proc "$root/proc"
mkdir -p "$root/home/owner" "$root/tmp/.X11-unix"
cp /etc/resolv.conf "$root/etc/resolv.conf"
[[ -z $(every_file) ]] || fail "the bare system has files of the program already"

echo "=== installed as README.md says"
cp "$package" "$root/home/owner/gapledger.deb"
inside apt-get update --quiet=2 >"$scratch/program.log" 2>&1 || fail "no list of packages"
inside apt-get install --yes --quiet=2 /home/owner/gapledger.deb >"$scratch/program.log" 2>&1 ||
    fail "the package cannot be installed"
rm "$root/home/owner/gapledger.deb"
inside dpkg --verify gapledger
inside gapledger --version

echo "=== without a window"
code=0
inside gapledger assess "$samples/farmyard-caravan.ron" >"$scratch/assess.txt" || code=$?
((code == 0 || code == 3)) || fail "assess ends with $code"
[[ $(wc -l <"$scratch/assess.txt") -ge 20 ]] || fail "assess prints next to nothing"
inside gapledger sheet "$samples/farmyard-caravan.ron" -o /home/owner/sheet.pdf || (($? == 3)) ||
    fail "no sheet"
[[ $(head -c 5 "$root/home/owner/sheet.pdf") == %PDF- ]] || fail "the sheet is no PDF"
for page in gapledger gapledger-assess gapledger-sheet; do
    [[ -s $root/usr/share/man/man1/$page.1.gz ]] || fail "no manual page $page"
done
inside bash -n /usr/share/bash-completion/completions/gapledger || fail "completions cannot be read"

echo "=== known by its first line"
kind_of() {
    inside xdg-mime query filetype "$1"
}
printf '(a: 1)\n' >"$root/home/owner/other.ron"
cp "$root$samples/farmyard-caravan.ron" "$root/home/owner/caravan.ron"
[[ $(kind_of /home/owner/caravan.ron) == application/x-gapledger-survey ]] ||
    fail "a survey is taken for $(kind_of /home/owner/caravan.ron)"
[[ $(kind_of /home/owner/other.ron) != *gapledger* ]] || fail "another RON file is taken for ours"
[[ $(inside xdg-mime query default application/x-gapledger-survey) == gapledger.desktop ]] ||
    fail "surveys are not opened by the program"

echo "=== opened from the desktop"
start_display
mount --bind /tmp/.X11-unix "$root/tmp/.X11-unix"
inside xdg-open /home/owner/caravan.ron >"$scratch/program.log" 2>&1 &
program_pid=$!
wait_for_window
wait_for_picture package
[[ $(xdotool getwindowname "$(head -n 1 "$scratch/window.txt")") == *caravan* ]] ||
    fail "the window does not name the survey"
end_installed
end_process "$program_pid"
program_pid=

echo "=== removed"
inside apt-get purge --yes --quiet=2 gapledger >"$scratch/program.log" 2>&1 ||
    fail "the package cannot be removed"
left=$(every_file | grep --invert-match '^./home/' || true)
[[ -z $left ]] || fail "left behind: $left"
[[ -s $root/home/owner/caravan.ron ]] || fail "the survey went with the program"
echo "installed, used, opened and removed; the survey stayed"
