#!/bin/sh
# Makes this checkout ready and then runs what it is given:
#
#   sh generator/ready.sh musterbook publish vessels
#   sh generator/ready.sh pytest
#
# On Debian and Ubuntu, as root, it brings what is missing. Elsewhere it says what to install. Once ready it adds
# a few hundredths of a second: two stamps in .venv/ tell that nothing has changed.
set -eu

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
venv=$root/.venv
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
# $1 what: libraries, chromium, poppler, atomic, python, venv
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
            "$python" -c "$runs_us" 2>/dev/null; then
            return 0
        fi
    done
    return 1
}

has_venv() { "$python" -c 'import venv, ensurepip' 2>/dev/null; }

# What the environment depends on: its own Python, where the checkout stands, what the project requires.
state() {
    version=$("$venv/bin/python" -V 2>/dev/null) || return 1
    printf '%s\n%s\n' "$version" "$root"
    cksum <"$root/pyproject.toml"
}

environment_is() { # $1 stamp
    [ -f "$venv/$1" ] && current=$(state) && [ "$(cat "$venv/$1")" = "$current" ]
}

make_environment() { # $1 what to install, $2 stamp
    if ! find_python; then
        can_install && apt_install python3 python3-venv || true
        find_python || stop "Python 3.11 or newer is missing. Bring it with: $(how python)"
    fi
    if ! has_venv; then
        can_install && apt_install python3-venv || true
        has_venv || stop "Python's venv module is missing. Bring it with: $(how venv)"
    fi
    # A moved checkout or a changed Python leaves commands that point nowhere.
    if [ -d "$venv" ] && ! { "$venv/bin/python" -c "$runs_us; import pip" && grep -q "$venv/" "$venv/bin/pip"; } 2>/dev/null; then
        say 'making .venv anew: it was made elsewhere or by another Python'
        rm -rf "$venv"
    fi
    if [ ! -d "$venv" ]; then
        say 'making .venv'
        quietly "$python" -m venv "$venv" || stop "the virtual environment could not be made in $venv"
    fi
    say "installing the project and what it needs into .venv (pip)"
    quietly "$venv/bin/python" -m pip install --quiet --disable-pip-version-check -e "$1" ||
        stop 'pip could not install the project: see above; it needs the network the first time'
    state >"$venv/$2"
}

# --- native libraries and the tools of the tests ------------------------------------------------------------------

libraries_missing() { # $1 which
    "$venv/bin/python" -P -c "import sys; from generator.machine import readiness as r; sys.exit(not r.missing_libraries($1))"
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
    environment_is ready-tests || make_environment "$root[test]" ready-tests
    complete=yes
    bring_libraries || complete=no
    bring_chromium || complete=no
    bring_pdftoppm || complete=no
    bring_driver || complete=no
    [ $complete = yes ] || stop "the tests can't run without them"
    ;;
*)
    environment_is ready-tests || environment_is ready || make_environment "$root" ready
    bring_libraries || say 'going on: survey and the site work without them'
    ;;
esac

PATH=$venv/bin:$PATH
export PATH
command -v "$command" >/dev/null 2>&1 || stop "no command called $command in .venv or on this system"
exec "$command" "$@"
