-- Passkeys beside passwords and links. Like credentials they belong to an account rather than to a practice, and are
-- reached before a practice is known: a row is visible to whoever shows its credential id (random, made and held by the
-- authenticator) or has proven the account. Only public data is kept; the secret never leaves the authenticator.
--
-- A challenge is visible to whoever holds its cookie, used once and short-lived. A visitor who never answers leaves one
-- behind, so anybody may delete those that are an hour old by the database's own clock, without being able to see them.
--
-- Sign-ins say how they came about: whoever came by a link or a passkey just now may set a new password without the old.
-- Those from before are taken for passwords, which proves least. No rewrite of the table: the default is constant.

create table passkey (
  id uuid primary key,
  account_id uuid not null references account (id) on delete cascade,
  credential_id bytea not null unique check (length(credential_id) between 1 and 1023),
  key jsonb not null,
  name text not null check (length(name) between 1 and 60),
  created_at timestamptz not null,
  last_used_at timestamptz
);
create index passkey_by_account on passkey (account_id);

create table passkey_challenge (
  token_hash bytea primary key,
  sign_in_id uuid references sign_in (id),
  state jsonb not null,
  expires_at timestamptz not null,
  kept_since timestamptz not null default now()
);
create index passkey_challenge_by_sign_in on passkey_challenge (sign_in_id);
create index passkey_challenge_by_age on passkey_challenge (kept_since);

alter table passkey enable row level security;
alter table passkey force row level security;
create policy held on passkey
  using (credential_id = (select decode(nullif(current_setting('app.passkey', true), ''), 'hex'))
         or account_id = (select nullif(current_setting('app.account_id', true), '')::uuid))
  with check (account_id = (select nullif(current_setting('app.account_id', true), '')::uuid));
grant select, insert, update, delete on passkey to settlebrook_app;

alter table passkey_challenge enable row level security;
alter table passkey_challenge force row level security;
create policy held on passkey_challenge
  using (token_hash = (select decode(nullif(current_setting('app.token_hash', true), ''), 'hex')))
  with check (token_hash = (select decode(nullif(current_setting('app.token_hash', true), ''), 'hex')));
create policy left_behind on passkey_challenge for delete using (kept_since < now() - interval '1 hour');
grant select, insert, delete on passkey_challenge to settlebrook_app;

alter table sign_in add column way text not null default 'password'
  check (way in ('password', 'passkey', 'link'));
