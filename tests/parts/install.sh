# Finds what the tests need, installs it where that can be done without asking, and else says how.

may_install() { ((EUID == 0)) && command -v apt-get >/dev/null; }

# install WHAT PACKAGE...: installs Debian packages, or says the line that would.
install() {
  local what=$1
  shift
  if may_install; then
    echo "Installing $what: apt-get install $*"
    { apt-get -q update && DEBIAN_FRONTEND=noninteractive apt-get -q install -y --no-install-recommends "$@"; } >&2 ||
      refuse "$what could not be installed: apt-get install $*"
  else
    refuse "$what is missing: sudo apt-get install -y $*"
  fi
}

need_rust() {
  command -v cargo >/dev/null || refuse "Rust is missing: see https://rustup.rs, then run tests/run again."
  cargo clippy --version >/dev/null 2>&1 && cargo fmt --version >/dev/null 2>&1 ||
    rustup component add clippy rustfmt || refuse "clippy or rustfmt is missing: rustup component add clippy rustfmt"
  command -v cc >/dev/null || install "A C compiler" build-essential
}

# Sets pg_bin: the folder of a PostgreSQL server's programs, 15 or newer, the newest found.
find_postgres() {
  local folder version best=0
  pg_bin=
  for folder in ${SETTLEBROOK_PG_BIN:-} /usr/lib/postgresql/*/bin /usr/pgsql-*/bin /opt/homebrew/opt/postgresql@*/bin \
    $(dirname "$(command -v postgres || echo /nowhere/postgres)"); do
    [[ -x $folder/postgres && -x $folder/initdb && -x $folder/psql ]] || continue
    version=$("$folder/postgres" --version | sed -E 's/[^0-9]*([0-9]+).*/\1/')
    if ((version >= 15 && version > best)); then
      best=$version pg_bin=$folder
    fi
    if [[ $folder = "${SETTLEBROOK_PG_BIN:-}" && -n $pg_bin ]]; then return; fi
  done
}

need_postgres() {
  find_postgres
  if [[ -z $pg_bin ]]; then
    install "PostgreSQL 15 or newer" postgresql
    find_postgres
    [[ -n $pg_bin ]] || refuse "PostgreSQL 15 or newer is missing, and this system's package is older."
  fi
  if ((EUID == 0)); then
    command -v setpriv >/dev/null || install "setpriv" util-linux
  fi
}

need_node() {
  command -v node >/dev/null && command -v npm >/dev/null || install "Node.js" nodejs npm
  (($(node -p 'process.versions.node.split(".")[0]') >= 18)) || refuse "Node.js 18 or newer is missing."
}

need_browser() {
  need_node
  CHROMIUM=${CHROMIUM:-$(command -v chromium || command -v chromium-browser || command -v google-chrome || true)}
  if [[ -z $CHROMIUM ]]; then
    install "Chromium" chromium
    CHROMIUM=$(command -v chromium)
  fi
  export CHROMIUM
  if ! cmp -s tests/browser/package-lock.json tests/browser/node_modules/.installed; then
    (cd tests/browser && npm ci --no-audit --no-fund --ignore-scripts) ||
      refuse "The browser's tools could not be installed: cd tests/browser && npm ci"
    cp tests/browser/package-lock.json tests/browser/node_modules/.installed
  fi
}
