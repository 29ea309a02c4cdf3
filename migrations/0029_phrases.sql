-- Phrases that a trainer keeps for answers: their own, nobody else's.
--
-- Safe while people work: the table is new.

create table phrase (
  practice_id uuid not null,
  id uuid not null,
  membership_id uuid not null,
  body text not null check (length(body) between 1 and 500),
  made_at timestamptz not null,
  primary key (practice_id, id),
  constraint phrase_once unique (practice_id, membership_id, body),
  foreign key (practice_id, membership_id) references membership (practice_id, id)
);

call tenant_table('phrase', 'select, insert, delete');
