#!/bin/sh
# Builds everything and runs all tests; the last line is the verdict.
set -e
cd "$(dirname "$0")/.."
. tests/packages.sh
need_packages $build_packages $test_packages

cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build build
ctest --test-dir build --output-on-failure --timeout 900
