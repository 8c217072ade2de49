# Set-up shared by run, build, test and bench: each function sees to one tool and says what it does. Sourced, never run.
# What is fetched stays in a cache outside the checkout, so that a fresh clone starts quickly.

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
CACHE="${STAND_IN_CACHE:-${XDG_CACHE_HOME:-$HOME/.cache}/stand-in}"
export CARGO_TERM_COLOR=never

say() { printf '%s\n' "$*" >&2; }
die() { say "error: $*"; exit 1; }

# The Rust of rust-toolchain.toml with its wasm target.
need_rust() {
  command -v rustup >/dev/null || die "rustup is needed: install it from your system's packages or rustup's own site, then run this again"
  if ! rustup target list --installed 2>/dev/null | grep -qx wasm32-unknown-unknown; then
    say "installing the Rust toolchain named in rust-toolchain.toml"
    rustup toolchain install >/dev/null
    rustup target add wasm32-unknown-unknown
  fi
}

need_node() {
  command -v node >/dev/null || die "Node 18 or newer is needed"
  [ "$(node -p 'Number(process.versions.node.split(".")[0]) >= 18')" = true ] || die "Node 18 or newer is needed, found $(node --version)"
}

# wasm-bindgen's command-line tool in the very version of the crate; building it takes two or three minutes once.
need_wasm_bindgen() {
  local version; version=$(sed -n 's/^wasm-bindgen = "=\(.*\)"$/\1/p' Cargo.toml)
  [ -n "$version" ] || die "Cargo.toml does not pin wasm-bindgen"
  WASM_BINDGEN_ROOT="$CACHE/wasm-bindgen-$version"
  if [ ! -x "$WASM_BINDGEN_ROOT/bin/wasm-bindgen" ]; then
    say "building wasm-bindgen-cli $version (once)"
    CARGO_TARGET_DIR="$CACHE/wasm-bindgen-build" cargo install --quiet --locked --root "$WASM_BINDGEN_ROOT" --version "$version" wasm-bindgen-cli
    rm -rf "$CACHE/wasm-bindgen-build"
  fi
  export PATH="$WASM_BINDGEN_ROOT/bin:$PATH"
}

# The Node packages of tests/browser, installed anew when their lock file changed.
need_packages() {
  need_node
  local stamp=tests/browser/node_modules/.stand-in-lock
  if ! cmp -s tests/browser/package-lock.json "$stamp"; then
    say "installing the Node packages of tests/browser"
    (cd tests/browser && PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD=1 npm ci --no-audit --no-fund --silent)
    cp tests/browser/package-lock.json "$stamp"
  fi
}

# A Debian package that brings a program or, with a slash in its name, a file; installed when it may be, else asked for.
has() { case $1 in */*) [ -e "$1" ];; *) command -v "$1" >/dev/null;; esac; }
need_debian() {
  local program=$1 package=$2
  has "$program" && return
  if command -v apt-get >/dev/null && [ "$(id -u)" = 0 ]; then
    say "installing $package"
    apt-get install -y -qq "$package" >/dev/null 2>&1 || { apt-get update -qq && apt-get install -y -qq "$package" >/dev/null; }
  fi
  has "$program" || die "$program is needed: install the package $package, then run this again"
}

# A Chromium with its driver: the one named, one that is found, or Debian's.
need_chromium() {
  for candidate in "${STAND_IN_CHROMIUM:-}" chromium chromium-browser google-chrome; do
    [ -n "$candidate" ] && command -v "$candidate" >/dev/null && { STAND_IN_CHROMIUM=$(command -v "$candidate"); break; }
  done
  [ -n "${STAND_IN_CHROMIUM:-}" ] || { need_debian chromium chromium; STAND_IN_CHROMIUM=$(command -v chromium); }
  need_debian chromedriver chromium-driver
  export STAND_IN_CHROMIUM CHROMEDRIVER; CHROMEDRIVER=$(command -v chromedriver)
}
