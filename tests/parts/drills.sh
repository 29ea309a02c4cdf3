# The drills: the real program on machines that do not behave.

need_drills() {
  need_node
  # Sets the clock back for one program; without it that drill says that it was left out.
  command -v faketime >/dev/null || ! may_install || install "faketime" faketime
}

drills() {
  DRILL=$words PSQL=$pg_bin/psql SETTLEBROOK_BINARY=$target/debug/settlebrook node tests/drills/run.mjs
}
