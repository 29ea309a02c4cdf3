# What we depend on: under which licences, from where, and with which known faults (.deny.toml).

deny_version=0.20.2

# Sets deny: the program, built into the target folder where it is not installed.
find_deny() {
  deny=$(command -v cargo-deny || echo "$target/tools/bin/cargo-deny")
  [[ -x $deny ]] || cargo install cargo-deny --version "$deny_version" --locked --debug --root "$target/tools"
}

licences() {
  if ! find_deny; then
    if [[ ${CI:-} = true ]]; then return 1; fi
    skip "cargo-deny could not be built (cargo install cargo-deny --locked)"
    return
  fi
  "$deny" --log-level error check bans licenses sources || return 1
  # The list of known faults comes from a place of its own, which not every machine reaches.
  if timeout 60 "$deny" --log-level error fetch db; then
    "$deny" --log-level error check advisories
  else
    leave_out "known faults of what we depend on" "their list could not be fetched"
  fi
}
