#!/bin/sh
# Sets up what is missing, builds, and runs every test: sh tests/run.sh
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
sh "$root/src/setup.sh" build
exec ctest --test-dir "$root/build" --output-on-failure -j "$(nproc)"
