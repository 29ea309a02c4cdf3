-- What was logged can be changed and taken away, and what it said before stays. A revision holds the whole row as it
-- was; its last one may be the removal, and then the row is left out of every list, count and rule (`deleted_at`). Who did
-- it, when and why stands in the revision alone. Its instant lies after everything that was told of the dog before it, so
-- that what is kept can be built anew in the order in which it came about.
--
-- Flags say when and why they were looked at again.
--
-- Safe while people work: columns without a default, or with a constant one, rewrite nothing, and the tables are new.

create table log_revision (
  practice_id uuid not null,
  practice_log_id uuid not null,
  number integer not null check (number >= 1),
  dog_id uuid not null,
  removes boolean not null,
  before jsonb not null,
  by_membership_id uuid not null,
  at timestamptz not null,
  reason text not null default '' check (length(reason) <= 500),
  primary key (practice_id, practice_log_id, number),
  foreign key (practice_id, practice_log_id) references practice_log (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index log_revision_by_dog on log_revision (practice_id, dog_id, at);
create index log_revision_by_member on log_revision (practice_id, by_membership_id);

create table encounter_revision (
  practice_id uuid not null,
  encounter_id uuid not null,
  number integer not null check (number >= 1),
  dog_id uuid not null,
  removes boolean not null,
  before jsonb not null,
  by_membership_id uuid not null,
  at timestamptz not null,
  reason text not null default '' check (length(reason) <= 500),
  primary key (practice_id, encounter_id, number),
  foreign key (practice_id, encounter_id) references encounter (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index encounter_revision_by_dog on encounter_revision (practice_id, dog_id, at);
create index encounter_revision_by_member on encounter_revision (practice_id, by_membership_id);

alter table practice_log
  add column revision integer not null default 0,
  add column deleted_at timestamptz;
alter table encounter
  add column revision integer not null default 0,
  add column deleted_at timestamptz;
alter table welfare_flag
  add column looked_again text check (looked_again in ('changed', 'removed', 'rule_changed')),
  add column looked_again_at timestamptz;

call tenant_table('log_revision', 'select, insert');
call tenant_table('encounter_revision', 'select, insert');
