#!/bin/sh
# Sets up what is missing, builds bothways and runs it with the arguments
# given: sh src/run.sh check assemblies/estuary-fibre.xml
# Packages are installed only where a needed program or library is not there,
# with sudo only if this is not root. The build of the command alone, without
# the tests, goes to the folder `build`; what is done is told on standard error.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
BOTHWAYS_TARGET=bothways sh "$root/src/setup.sh" build 1>&2
exec "$root/build/src/bothways" "$@"
