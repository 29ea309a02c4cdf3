# Steps, what became of each, and the summary at the end. A failed step does not stop the others, unless they need it.

said=() failed=0 skipped=

refuse() {
  echo "$1" >&2
  exit 2
}

# Called by a step that cannot be taken on this machine and may be left out.
skip() { skipped=$1; }

leave_out() { said+=("left out  $1: $2"); }

# step NAME FUNCTION...: takes the functions in turn, stopping at the first that fails.
step() {
  local name=$1 began=$SECONDS status=0
  shift
  printf '\n== %s\n' "$name"
  skipped=
  local part
  for part in "$@"; do
    # A function called in a condition would go on after an error in its middle, so it runs in a shell of its own.
    if [[ $part = licences ]]; then
      "$part" || status=$?
    else
      set +e
      (set -e; "$part")
      status=$?
      set -e
    fi
    ((status == 0)) || break
  done
  local took=$((SECONDS - began))
  if [[ -n $skipped ]]; then
    leave_out "$name" "$skipped"
  elif ((status == 0)); then
    said+=("passed    $name (${took} s)")
  else
    said+=("FAILED    $name (${took} s)")
    failed=$((failed + 1))
    case $name in
      "the program" | "a migrated template") summary ;;
    esac
  fi
}

# beside NAME FUNCTION: begins a step that goes on beside those that follow, until `joined` says what became of it.
beside() {
  local name=$1 part=$2
  beside_began=$SECONDS beside_log=$target/beside.log
  printf '\n== %s: goes on beside what follows\n' "$name"
  (set -e; "$part") >"$beside_log" 2>&1 &
  beside_pid=$!
}

joined() {
  local name=$1 status=0
  wait "$beside_pid" || status=$?
  printf '\n== %s\n' "$name"
  cat "$beside_log"
  local took=$((SECONDS - beside_began))
  if ((status == 0)); then
    said+=("passed    $name (${took} s, beside the others)")
  else
    said+=("FAILED    $name (${took} s, beside the others)")
    failed=$((failed + 1))
  fi
}

summary() {
  printf '\n== summary\n'
  printf '%s\n' "${said[@]}"
  if ((failed)); then
    echo "$failed of ${#said[@]} steps failed."
    exit 1
  fi
}
