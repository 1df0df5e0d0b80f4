# Debian packages: what building, testing and the thorough tests need, and a function that installs
# those that are missing. Sourced by examples/run, tests/run and tests/thorough.
# shellcheck shell=bash disable=SC2034 # the lists are used by those that source this

# The compiler, the build and the libraries that Trivet stands on.
build_packages=(gcc libc6-dev cmake ninja-build pkgconf
    liblapacke-dev libopenblas-dev libfyaml-dev libjansson-dev libsqlite3-dev)

# The test runner for C, the second language of the headers, what Debian's OpenBLAS names for static
# linking, the referees, what the Python package is built and tested with, format and lint.
test_packages=(check g++ libgfortran-12-dev
    python3 python3-numpy python3-scipy python3-cffi python3-pytest python3-jsonschema python3-yaml
    python3-dev python3-venv python3-pip python3-setuptools python3-wheel python3-hypothesis
    python3-pandas python3-matplotlib python3-distributed mypy
    python3-meshio python3-ezdxf
    sqlite3 clang-format clang-tidy shellcheck chromium fonts-dejavu-core)

# What judges glTF files and what drives the browser come from npm. A machine may have its own from
# elsewhere, which Debian's would fight.
if ! command -v npm >/dev/null || ! command -v node >/dev/null; then
    test_packages+=(nodejs npm)
fi

# The other compiler.
thorough_packages=(clang)

# install_missing PACKAGE...: says what it installs; quick and silent if everything is there.
install_missing() {
    local missing=() package
    for package in "$@"; do
        if ! dpkg-query --show --showformat='${db:Status-Status}' "$package" 2>/dev/null |
            grep -q '^installed'; then
            missing+=("$package")
        fi
    done
    if [ "${#missing[@]}" -eq 0 ]; then
        return 0
    fi
    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "These Debian packages are missing: ${missing[*]}" >&2
            echo "Install them as root, then run this again: apt-get install ${missing[*]}" >&2
            return 1
        fi
        as_root=(sudo)
    fi
    echo "Installing from Debian's packages: ${missing[*]}"
    # A sudo of its own for each call keeps the setting for questions, which sudo would drop.
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update --quiet=2
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install --yes --quiet=2 \
        --no-install-recommends "${missing[@]}"
}
