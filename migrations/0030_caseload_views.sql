-- What a trainer keeps of the caseload: views under a name, and a word on handing a dog over.
--
-- Safe while people work: the tables are new.

create table caseload_view (
  practice_id uuid not null,
  id uuid not null,
  membership_id uuid not null,
  name text not null check (length(name) between 1 and 60),
  query text not null check (length(query) <= 400),
  kept_at timestamptz not null,
  primary key (practice_id, id),
  constraint caseload_view_once unique (practice_id, membership_id, name),
  foreign key (practice_id, membership_id) references membership (practice_id, id)
);

create table hand_over (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  from_membership_id uuid not null,
  to_membership_id uuid not null,
  by_membership_id uuid not null,
  note text not null default '' check (length(note) <= 1000),
  at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, from_membership_id) references membership (practice_id, id),
  foreign key (practice_id, to_membership_id) references membership (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index hand_over_by_dog on hand_over (practice_id, dog_id, at desc);
create index hand_over_by_giver on hand_over (practice_id, from_membership_id);
create index hand_over_by_taker on hand_over (practice_id, to_membership_id);
create index hand_over_by_teller on hand_over (practice_id, by_membership_id);

call tenant_table('caseload_view', 'select, insert, delete');
call tenant_table('hand_over', 'select, insert');
