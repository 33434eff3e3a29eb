#!/bin/sh
# How many of 10 000 circuits with every kind of element, joined at random, settle. Needs a finished build (sh tests/run.sh).
set -e
cd "$(dirname "$0")/../.."
FERRULE_TANGLES="${1:-10000}" build/test_hydraulics "circuits of all elements*"
