#!/bin/sh
# Makes the Debian packages in the folder given, relative to the project: the
# command; the shared library, in a package of its own that is named after the
# number of its interface; and what programs are built with. The distribution's
# own tools make them from src/debian. The same sources give the same bytes.
#   usage: package.sh [BUILD-FOLDER]   (build-package unless given)
set -eu
umask 022

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${1:-build-package}
build=$root/$folder
BOTHWAYS_PACKAGES=dpkg-dev sh "$root/src/setup.sh" "$folder" \
    -DCMAKE_INSTALL_PREFIX=/usr -DBOTHWAYS_TESTS=OFF -DBOTHWAYS_UNITY=ON

work=$build/packages
abi=$(sed -n '1s/^abi //p' "$root/include/bothways.abi")
rm -rf "$work" "$build"/*.deb
mkdir -p "$work/debian"
cd "$work"
sed "s/@ABI@/$abi/" "$root/src/debian/control" >debian/control
cp "$root/src/debian/changelog" debian
SOURCE_DATE_EPOCH=$(dpkg-parsechangelog -S Timestamp)
export SOURCE_DATE_EPOCH
version=$(dpkg-parsechangelog -S Version)
built=$(sed -n 's/^CMAKE_PROJECT_VERSION:STATIC=//p' "$build/CMakeCache.txt")
[ "$version" = "$built" ] || {
    echo "src/debian/changelog begins with $version, the project is $built" >&2
    exit 1
}

# Every package has changes and copyright at the same place; the licence stands
# in the latter. Manual pages and changes are compressed without name and date.
documents() { # PACKAGE
    docs=$1/usr/share/doc/$1
    mkdir -p "$docs"
    rm -f "$docs/LICENSE"
    cp "$root/src/debian/copyright" "$docs"
    gzip -9n <debian/changelog >"$docs/changelog.gz"
    find "$1/usr/share" -path '*/man/*.1' -exec gzip -9n {} +
}

# What only debuggers and linkers of this build want is left out.
strip_all() { # PACKAGE
    find "$1/usr" -type f | while read -r file; do
        case $file in
        *.a) strip --strip-debug -R .comment --enable-deterministic-archives "$file" ;;
        */bin/* | *.so.*) strip --strip-unneeded -R .comment -R .note "$file" ;;
        esac
    done
}

pack() { # PACKAGE COMPONENT
    DESTDIR=$work/$1 cmake --install "$build" --component "$2" >"$build/package.log"
    strip_all "$1"
    documents "$1"
    find "$1" -type d -exec chmod 755 {} +
    find "$1" -type f ! -path '*/bin/*' -exec chmod 644 {} +
    mkdir "$1/DEBIAN"
    find "$1/usr" -type f \( -path '*/bin/*' -o -name '*.so.*' \) >elf
    # shellcheck disable=SC2046
    [ ! -s elf ] || dpkg-shlibdeps -T"$1.substvars" $(cat elf)
    case $1 in
    lib*[0-9])
        echo "libbothways $abi $1 (>= $version)" >"$1/DEBIAN/shlibs"
        echo 'activate-noawait ldconfig' >"$1/DEBIAN/triggers"
        ;;
    esac
    touch "$1.substvars"
    dpkg-gencontrol -p"$1" -P"$1" -T"$1.substvars"
    (cd "$1" && find usr -type f | LC_ALL=C sort | xargs md5sum >DEBIAN/md5sums)
    chmod 644 "$1"/DEBIAN/*
    dpkg-deb --root-owner-group --build "$1" "$build" >>"$build/package.log"
}

pack bothways command
pack "libbothways$abi" library
pack libbothways-dev development
for package in "$build"/*.deb; do
    echo "made $folder/$(basename "$package"), $(($(wc -c <"$package") / 1024)) KiB"
done
