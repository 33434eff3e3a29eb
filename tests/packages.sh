# Debian packages that Ferrule builds and tests with; installs what is missing (root or sudo).
# Sourced by samples/run.sh and tests/run.sh.

need_packages() {
  missing=""
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q '^install ok installed' || missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  echo "installing:$missing"
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "run as root, or install:$missing" >&2; return 1; }
    as_root=sudo
  fi
  $as_root apt-get update -qq && $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $missing >/dev/null
}

build_packages="g++ cmake ninja-build pkg-config tao-pegtl-dev libfmt-dev libcairo2-dev libpango1.0-dev libfontconfig-dev
  nlohmann-json3-dev libcli11-dev libeigen3-dev catch2 fonts-osifont"
test_packages="graphviz poppler-utils python3 python3-jsonschema librsvg2-bin libudunits2-dev libgsl-dev"
