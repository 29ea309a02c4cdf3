-- The roles that migrations and the service expect to find.
create role settlebrook_owner login;
create role settlebrook_app login noinherit;
create role settlebrook_worker login noinherit;
create role settlebrook_backup login bypassrls;
grant pg_read_all_data to settlebrook_backup;
