#!/usr/bin/env bash
# The two commands of the README on a bare Debian 12: makes one in a folder of its own, copies this
# tree into it and runs examples/run and tests/run there. Needs root, debootstrap and some GB; not
# part of the tests, which must not take so long.
# usage: bare_debian.sh [EXAMPLE_ONLY]   (any word: leaves out tests/run)
set -euo pipefail
source_root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
mirror=$(find /etc/apt -name '*.list' -o -name '*.sources' | sort | xargs cat |
    sed -n -E 's/^(URIs: *|deb )(http[^ ]*\/debian\/?)( .*)?$/\2/p' | sort -u | sed -n 1p)
if [ -z "$mirror" ]; then
    echo "No Debian mirror is named in /etc/apt." >&2
    exit 1
fi
place=$(mktemp -d)
system=$place/debian

take_down() {
    for mounted in proc dev/pts dev; do
        if mountpoint -q "$system/$mounted"; then umount "$system/$mounted"; fi
    done
    # A mount that could not be taken down must not be emptied.
    rm -rf --one-file-system "$place"
}
trap take_down EXIT

debootstrap --variant=minbase bookworm "$system" "$mirror"
# How packages are reached is a matter of the machine, not of the system under test.
cp -a /etc/apt/apt.conf.d/. "$system/etc/apt/apt.conf.d/"
cp /etc/hosts /etc/resolv.conf "$system/etc/"
mount --bind /dev "$system/dev"
mount --make-private "$system/dev"
mount --bind /dev/pts "$system/dev/pts"
mount -t proc proc "$system/proc"
mkdir "$system/trivet"
tar -C "$source_root" --exclude=./.git --exclude='./build*' -cf - . | tar -C "$system/trivet" -xf -

inside() {
    echo "== $1"
    local start=$SECONDS
    env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 \
        ${http_proxy:+http_proxy="$http_proxy"} ${https_proxy:+https_proxy="$https_proxy"} \
        ${OPENBLAS_CORETYPE:+OPENBLAS_CORETYPE="$OPENBLAS_CORETYPE"} \
        chroot "$system" "/trivet/$1"
    echo "== $1 took $((SECONDS - start)) s"
}

inside examples/run
inside examples/run
if [ "$#" -eq 0 ]; then inside tests/run; fi
