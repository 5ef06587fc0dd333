#!/bin/sh
# Makes this checkout ready and then runs what it is given:
#
#   sh generator/ready.sh musterbook publish vessels
#   sh generator/ready.sh pytest
#
# On Debian and Ubuntu, as root, it brings what is missing. Elsewhere it says what to install. Python packages come as
# lock.txt has them, each checked against its fingerprint; what else stands in .venv/ is taken out. Once ready it adds a few
# hundredths of a second: two stamps in .venv/ tell that nothing has changed.
set -eu

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
venv=$root/.venv
lock=$root/generator/lock.txt
libraries='libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0'
runs_us='import sys; assert sys.version_info >= (3, 11)'

say() { printf 'ready: %s\n' "$*" >&2; }

stop() {
    say "$@"
    exit 2
}

# Runs a command quietly; what it had to say is shown only if it fails.
quietly() {
    report=$(mktemp)
    trap 'rm -f "$report"' EXIT
    if "$@" >"$report" 2>&1; then
        rm -f "$report"
        return 0
    fi
    cat "$report" >&2
    rm -f "$report"
    return 1
}

# --- what the system's package manager brings ---------------------------------------------------------------------

can_install() { command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; }

apt_install() { # packages...
    say "installing $* (apt-get)"
    DEBIAN_FRONTEND=noninteractive
    export DEBIAN_FRONTEND
    if apt-get install -y --no-install-recommends "$@" >/dev/null 2>&1; then
        return 0
    fi
    quietly apt-get update && quietly apt-get install -y --no-install-recommends "$@"
}

# The command that brings a thing on this system, for people who run it themselves.
# $1 what: libraries, chromium, poppler, strace, atomic, python, venv
how() {
    family=other
    if [ -r /etc/os-release ]; then
        # shellcheck disable=SC1091
        family=$(. /etc/os-release && printf '%s %s' "${ID:-}" "${ID_LIKE:-}")
    elif [ "$(uname -s)" = Darwin ]; then
        family=macos
    fi
    case " $family " in
    *' debian '* | *' ubuntu '*)
        case $1 in
        libraries) set -- "$libraries" ;;
        poppler) set -- poppler-utils ;;
        atomic) set -- libatomic1 ;;
        python) set -- 'python3 python3-venv' ;;
        venv) set -- python3-venv ;;
        esac
        echo "apt-get update && apt-get install --no-install-recommends $1 (as root)"
        ;;
    *' fedora '* | *' rhel '*)
        case $1 in libraries) set -- pango ;; poppler) set -- poppler-utils ;; atomic) set -- libatomic ;; python | venv) set -- python3 ;; esac
        echo "dnf install $1 (as root)"
        ;;
    *' arch '*)
        case $1 in libraries) set -- pango ;; atomic) set -- gcc-libs ;; python | venv) set -- python ;; esac
        echo "pacman -S $1 (as root)"
        ;;
    *' alpine '*)
        case $1 in
        libraries) set -- 'pango harfbuzz-subset' ;;
        poppler) set -- poppler-utils ;;
        atomic) set -- libatomic ;;
        python | venv) set -- python3 ;;
        esac
        echo "apk add $1 (as root)"
        ;;
    *' macos '*)
        case $1 in libraries) set -- pango ;; chromium) set -- '--cask chromium' ;; venv) set -- python ;; esac
        echo "brew install $1"
        ;;
    *)
        case $1 in
        libraries) set -- 'Pango 1.44 or newer with its FreeType part, and HarfBuzz with its subset library' ;;
        chromium) set -- 'Chromium, as the command chromium' ;;
        poppler) set -- "Poppler's command-line tools (pdftoppm)" ;;
        strace) set -- 'strace, which shows the calls of a program to the system' ;;
        atomic) set -- 'the library libatomic' ;;
        python) set -- 'Python 3.11 or newer' ;;
        venv) set -- "Python's venv module with ensurepip" ;;
        esac
        echo "install $1 through the system's package manager"
        ;;
    esac
}

# --- Python and the virtual environment ---------------------------------------------------------------------------

find_python() {
    for python in python3 python3.14 python3.13 python3.12 python3.11; do
        if command -v "$python" >/dev/null 2>&1 &&
            "$python" -I -c "$runs_us" 2>/dev/null; then
            return 0
        fi
    done
    return 1
}

has_venv() { "$python" -I -c 'import venv, ensurepip' 2>/dev/null; }

# What the environment depends on: its own Python, where the checkout stands, what the project requires, what is locked.
state() {
    version=$("$venv/bin/python" -V 2>/dev/null) || return 1
    printf '%s\n%s\n' "$version" "$root"
    cat "$root/pyproject.toml" "$lock" | cksum
}

environment_is() { # $1 stamp
    [ -f "$venv/$1" ] && current=$(state) && [ "$(cat "$venv/$1")" = "$current" ]
}

# -I throughout: what lies in the folder of whoever calls, or on PYTHONPATH, is not run and does not pass for installed.
pip() { PIP_DISABLE_PIP_VERSION_CHECK=1 "$venv/bin/python" -I -m pip "$@"; }

# Names what is installed but not in the lock, or not at that version: what another lock, or somebody by hand, has brought.
strangers='
import importlib.metadata, re, sys
from packaging.version import Version
entry = re.compile(r"([a-z0-9-]+)==(\S+)")
locked = {name: Version(version) for name, version in (found.groups() for found in map(entry.match, open(sys.argv[1])) if found)}
for each in importlib.metadata.distributions():
    name = re.sub(r"[-_.]+", "-", each.name).lower()
    if name not in ("pip", "musterbook") and locked.get(name) != Version(each.version):
        print(name)
'

make_environment() { # $1 stamp
    part=$venv/ready-lock
    rm -f "$venv/ready" "$venv/ready-tests"
    if ! find_python; then
        can_install && apt_install python3 python3-venv || true
        find_python || stop "Python 3.11 or newer is missing. Bring it with: $(how python)"
    fi
    if ! has_venv; then
        can_install && apt_install python3-venv || true
        has_venv || stop "Python's venv module is missing. Bring it with: $(how venv)"
    fi
    # A moved checkout or a changed Python leaves commands that point nowhere.
    if [ -d "$venv" ] && ! { "$venv/bin/python" -I -c "$runs_us; import pip" && grep -q "$venv/" "$venv/bin/pip"; } 2>/dev/null; then
        say 'making .venv anew: it was made elsewhere or by another Python'
        rm -rf "$venv"
    fi
    if [ ! -d "$venv" ]; then
        say 'making .venv'
        quietly "$python" -I -m venv "$venv" || stop "the virtual environment could not be made in $venv"
    fi
    say 'installing what is locked, and the project, into .venv (pip)'
    if [ "$1" = ready-tests ]; then
        cat "$lock" >"$part"
    else
        sed '/^# What the tests need too$/,$d' "$lock" >"$part"
    fi
    # Nothing is built: what a build would fetch has no fingerprint in the lock.
    quietly pip install --quiet --no-deps --require-hashes --only-binary :all: -r "$part" ||
        stop 'pip could not install what is locked: see above; it needs the network when the lock is new'
    quietly pip install --quiet --no-deps --no-build-isolation --no-index -e "$root" ||
        stop 'pip could not install the project: see above'
    foreign=$("$venv/bin/python" -I -c "$strangers" "$lock") || stop 'what is installed could not be compared with the lock'
    # One word each, without blanks.
    # shellcheck disable=SC2086
    [ -z "$foreign" ] || quietly pip uninstall --yes $foreign || stop "pip could not take out of .venv:" $foreign
    state >"$venv/$1"
}

# --- native libraries and the tools of the tests ------------------------------------------------------------------

libraries_missing() { # $1 which
    "$venv/bin/python" -I -c "import sys; from generator.machine import readiness as r; sys.exit(not r.missing_libraries($1))"
}

bring_libraries() {
    [ -f "$venv/ready-libraries" ] && return 0
    if libraries_missing 'r.ALL_LIBRARIES'; then
        if can_install; then
            # shellcheck disable=SC2086
            apt_install $libraries || true
        fi
        if libraries_missing 'r.NATIVE_LIBRARIES'; then
            say "native libraries of the PDF engine are missing. Bring them with: $(how libraries)"
            return 1
        fi
    fi
    : >"$venv/ready-libraries"
}

chromium_found() {
    for browser in chromium chromium-browser google-chrome google-chrome-stable chrome; do
        command -v "$browser" >/dev/null 2>&1 && return 0
    done
    return 1
}

pdftoppm_found() { command -v pdftoppm >/dev/null 2>&1; }

# It shows the tests what a publish asks of the system. Only Linux has it, and only there they look.
bring_strace() {
    [ "$(uname -s)" = Linux ] || return 0
    command -v strace >/dev/null 2>&1 || { can_install && apt_install strace; } || true
    command -v strace >/dev/null 2>&1 || { say "the tests need strace. Bring it with: $(how strace)" && return 1; }
}

bring_chromium() {
    chromium_found || { can_install && apt_install chromium; } || true
    chromium_found || { say "the tests need Chromium. Bring it with: $(how chromium)" && return 1; }
}

bring_pdftoppm() {
    pdftoppm_found || { can_install && apt_install poppler-utils; } || true
    pdftoppm_found || { say "the tests need pdftoppm. Bring it with: $(how poppler)" && return 1; }
}

# The driver that steers the browser brings its own node, which needs libatomic; a bare system has none.
bring_driver() {
    [ -f "$venv/ready-driver" ] && return 0
    for node in "$venv"/lib/python3*/site-packages/playwright/driver/node; do
        [ -x "$node" ] || return 0
        "$node" --version >/dev/null 2>&1 || { can_install && apt_install libatomic1; } || true
        "$node" --version >/dev/null 2>&1 || { say "the browser's driver needs libatomic. Bring it with: $(how atomic)" && return 1; }
    done
    : >"$venv/ready-driver"
}

# --- the order of work --------------------------------------------------------------------------------------------

[ $# -gt 0 ] || stop 'say what to run, for example: sh generator/ready.sh musterbook publish vessels'
command=$1
shift

case $command in
pytest)
    environment_is ready-tests || make_environment ready-tests
    complete=yes
    bring_libraries || complete=no
    bring_chromium || complete=no
    bring_pdftoppm || complete=no
    bring_strace || complete=no
    bring_driver || complete=no
    [ $complete = yes ] || stop "the tests can't run without them"
    ;;
*)
    environment_is ready-tests || environment_is ready || make_environment ready
    bring_libraries || say 'going on: survey and the site work without them'
    ;;
esac

PATH=$venv/bin:$PATH
export PATH
command -v "$command" >/dev/null 2>&1 || stop "no command called $command in .venv or on this system"
exec "$command" "$@"
