-- Practices and the people in them. What is reached before a tenant is known (account, credential, sign_in,
-- link_token, setup_token) is visible only to whoever already holds its secret: see the policies at the end.

-- Gives a table that carries practice_id the one tenant policy, forced, and the grants of the app role.
create procedure tenant_table(name text, grants text default 'select, insert, update, delete')
language plpgsql as $$
begin
  execute format('alter table %I enable row level security', name);
  execute format('alter table %I force row level security', name);
  execute format('create policy tenant on %I using (practice_id = (select nullif(current_setting(''app.practice_id'', true), '''')::uuid)) with check (practice_id = (select nullif(current_setting(''app.practice_id'', true), '''')::uuid))', name);
  execute format('grant %s on %I to settlebrook_app, settlebrook_worker', grants, name);
end $$;
revoke execute on procedure tenant_table(text, text) from public;

grant usage on schema public to settlebrook_app, settlebrook_worker;

create table setup_token (
  token_hash bytea primary key,
  created_at timestamptz not null,
  expires_at timestamptz not null,
  used_at timestamptz
);

create table practice (
  id uuid primary key,
  name text not null check (length(name) between 1 and 120),
  zone text not null check (length(zone) between 1 and 64),
  replies text not null default 'Usually replies within two working days' check (length(replies) <= 200),
  created_at timestamptz not null
);

create table account (
  id uuid primary key,
  email text unique check (email = lower(email) and length(email) between 3 and 254),
  created_at timestamptz not null,
  disabled_at timestamptz
);

create table credential (
  account_id uuid not null references account (id) on delete cascade,
  kind text not null check (kind in ('password')),
  secret text not null,
  changed_at timestamptz not null,
  primary key (account_id, kind)
);

create table membership (
  practice_id uuid not null references practice (id),
  id uuid not null,
  account_id uuid references account (id),
  role text not null check (role in ('lead', 'trainer', 'owner')),
  name text not null check (length(name) between 1 and 120),
  phone text not null default '' check (length(phone) <= 40),
  email text not null default '' check (length(email) <= 254),
  created_at timestamptz not null,
  joined_at timestamptz,
  removed_at timestamptz,
  primary key (practice_id, id),
  constraint membership_account_once unique (practice_id, account_id)
);
create index membership_by_account on membership (account_id);

create table sign_in (
  token_hash bytea primary key,
  id uuid not null unique,
  account_id uuid not null references account (id),
  practice_id uuid not null,
  membership_id uuid not null,
  device text not null check (length(device) <= 120),
  created_at timestamptz not null,
  last_seen_at timestamptz not null,
  expires_at timestamptz not null,
  ended_at timestamptz,
  foreign key (practice_id, membership_id) references membership (practice_id, id)
);
create index sign_in_by_account on sign_in (account_id);
create index sign_in_by_membership on sign_in (practice_id, membership_id);

create table link_token (
  token_hash bytea primary key,
  practice_id uuid not null,
  kind text not null check (kind in ('invitation', 'device')),
  membership_id uuid not null,
  created_by uuid not null,
  created_at timestamptz not null,
  expires_at timestamptz not null,
  used_at timestamptz,
  revoked_at timestamptz,
  foreign key (practice_id, membership_id) references membership (practice_id, id),
  foreign key (practice_id, created_by) references membership (practice_id, id)
);
create index link_token_by_membership on link_token (practice_id, membership_id);
create index link_token_by_creator on link_token (practice_id, created_by);

create table household (
  practice_id uuid not null references practice (id),
  id uuid not null,
  name text not null check (length(name) between 1 and 120),
  zone text not null check (length(zone) between 1 and 64),
  note text not null default '' check (length(note) <= 4000),
  created_at timestamptz not null,
  primary key (practice_id, id)
);

create table household_member (
  practice_id uuid not null,
  household_id uuid not null,
  membership_id uuid not null,
  added_at timestamptz not null,
  primary key (practice_id, household_id, membership_id),
  foreign key (practice_id, household_id) references household (practice_id, id),
  foreign key (practice_id, membership_id) references membership (practice_id, id)
);
create index household_member_by_membership on household_member (practice_id, membership_id);

create table audit_event (
  practice_id uuid not null references practice (id),
  id uuid not null,
  at timestamptz not null,
  by_membership_id uuid,
  action text not null check (length(action) between 1 and 60),
  object_kind text not null check (length(object_kind) between 1 and 40),
  object_id uuid,
  detail text not null default '' check (length(detail) <= 500),
  primary key (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index audit_event_by_time on audit_event (practice_id, at desc);
create index audit_event_by_member on audit_event (practice_id, by_membership_id);

call tenant_table('household');
call tenant_table('household_member');
call tenant_table('audit_event', 'select, insert');

-- The practice itself: its id is the tenant.
alter table practice enable row level security;
alter table practice force row level security;
create policy tenant on practice
  using (id = (select nullif(current_setting('app.practice_id', true), '')::uuid))
  with check (id = (select nullif(current_setting('app.practice_id', true), '')::uuid));
grant select, insert, update on practice to settlebrook_app, settlebrook_worker;

-- Membership: the tenant's, and one's own in every practice.
call tenant_table('membership', 'select, insert, update');
create policy mine on membership for select
  using (account_id = (select nullif(current_setting('app.account_id', true), '')::uuid));

alter table account enable row level security;
alter table account force row level security;
create policy held on account
  using (id = (select nullif(current_setting('app.account_id', true), '')::uuid)
         or email = (select nullif(current_setting('app.email', true), '')))
  with check (id = (select nullif(current_setting('app.account_id', true), '')::uuid));
grant select, insert, update on account to settlebrook_app;

alter table credential enable row level security;
alter table credential force row level security;
create policy held on credential
  using (account_id = (select nullif(current_setting('app.account_id', true), '')::uuid))
  with check (account_id = (select nullif(current_setting('app.account_id', true), '')::uuid));
grant select, insert, update, delete on credential to settlebrook_app;

alter table sign_in enable row level security;
alter table sign_in force row level security;
create policy held on sign_in
  using (token_hash = (select decode(nullif(current_setting('app.token_hash', true), ''), 'hex'))
         or account_id = (select nullif(current_setting('app.account_id', true), '')::uuid)
         or practice_id = (select nullif(current_setting('app.practice_id', true), '')::uuid))
  with check (account_id = (select nullif(current_setting('app.account_id', true), '')::uuid)
         or practice_id = (select nullif(current_setting('app.practice_id', true), '')::uuid));
grant select, insert, update on sign_in to settlebrook_app;

alter table link_token enable row level security;
alter table link_token force row level security;
create policy held on link_token
  using (token_hash = (select decode(nullif(current_setting('app.token_hash', true), ''), 'hex'))
         or practice_id = (select nullif(current_setting('app.practice_id', true), '')::uuid))
  with check (practice_id = (select nullif(current_setting('app.practice_id', true), '')::uuid));
grant select, insert, update on link_token to settlebrook_app;

alter table setup_token enable row level security;
alter table setup_token force row level security;
create policy held on setup_token
  using (token_hash = (select decode(nullif(current_setting('app.token_hash', true), ''), 'hex')))
  with check (token_hash = (select decode(nullif(current_setting('app.token_hash', true), ''), 'hex')));
grant select, insert, update on setup_token to settlebrook_app;

-- One row: whether anybody ever set up a practice here, so that the first start can offer it.
create table installation (
  only_one boolean primary key default true check (only_one),
  first_set_up_at timestamptz
);
insert into installation default values;
grant select, update (first_set_up_at) on installation to settlebrook_app;
