# A PostgreSQL for the tests alone: in a folder that goes when they end, reached by a socket only, and careless with
# what it keeps, since nothing in it is kept.

# Runs a program as the user that the server runs as: PostgreSQL refuses root.
as_pg() {
  if ((EUID != 0)); then
    "$@"
  else
    setpriv --reuid="$pg_user" --regid="$(id -g "$pg_user")" --clear-groups "$@"
  fi
}

psql_as() {
  local role=$1 database=$2
  shift 2
  "$pg_bin/psql" -X -q -v ON_ERROR_STOP=1 -h "$pg_socket" -U "$role" -d "$database" "$@"
}

url() { echo "postgres:///$2?host=$pg_socket&user=$1"; }

start_postgres() {
  pg_user=$(id -un)
  if ((EUID == 0)); then
    pg_user=postgres
    id -u postgres >/dev/null 2>&1 || pg_user=nobody
  fi
  # Short, for the socket's path; and where an unprivileged user can go.
  pg_folder=$(mktemp -d /tmp/settlebrook-test.XXXXXX)
  pg_socket=$pg_folder/socket
  mkdir -m 700 "$pg_folder/data" "$pg_socket"
  if ((EUID == 0)); then chown -R "$pg_user" "$pg_folder"; fi
  (
    cd "$pg_folder"
    as_pg "$pg_bin/initdb" -D data -U postgres --auth-local=trust --auth-host=reject -E UTF8 --locale=C --no-sync
  ) >"$pg_folder/initdb.log" 2>&1 || { cat "$pg_folder/initdb.log"; refuse "The test database could not be made."; }
  local follow=() pg_server=("$pg_bin/postgres" -D "$pg_folder/data" -k "$pg_socket" -c listen_addresses= -c max_connections=200 -c fsync=off -c full_page_writes=off -c synchronous_commit=off)
  # The server ends when this script does, even when the script is killed.
  if setpriv --help 2>&1 | grep -q pdeathsig; then follow=(--pdeathsig=INT); fi
  (
    cd "$pg_folder"
    if ((EUID == 0)); then
      exec setpriv --reuid="$pg_user" --regid="$(id -g "$pg_user")" --clear-groups "${follow[@]}" "${pg_server[@]}"
    elif ((${#follow[@]})); then
      exec setpriv "${follow[@]}" "${pg_server[@]}"
    else
      exec "${pg_server[@]}"
    fi
  ) >"$pg_folder/server.log" 2>&1 &
  pg_pid=$!
  local tries
  for tries in {1..200}; do
    "$pg_bin/psql" -X -q -h "$pg_socket" -U postgres -d postgres -c "select 1" >/dev/null 2>&1 && break
    kill -0 "$pg_pid" 2>/dev/null || { cat "$pg_folder/server.log"; refuse "The test database does not start."; }
    sleep 0.05
  done
  ((tries < 200)) || { cat "$pg_folder/server.log"; refuse "The test database does not answer."; }
  psql_as postgres postgres -f tests/parts/roles.sql
}

stop_postgres() {
  kill -INT "$pg_pid" 2>/dev/null || true
  wait "$pg_pid" 2>/dev/null || true
  rm -rf "$pg_folder"
}

# An empty database that belongs to the schema's owner, as a host would make it.
new_database() {
  psql_as postgres postgres -c "create database $1 owner settlebrook_owner template template0"
  psql_as postgres "$1" -c "revoke create on schema public from public" \
    -c "grant create, usage on schema public to settlebrook_owner"
}

# A database migrated by psql, since the program cannot be built before its queries were checked against one.
migrated_database() {
  local file
  new_database "$1"
  for file in migrations/*.sql; do
    psql_as settlebrook_owner "$1" -1 -f "$file"
  done
}
