-- What a household tells before the first lesson, what a trainer makes of it, and what the household agrees to.
--
-- Answers are one document, a key a page (`domain/intake/answers.rs`): a page is saved as a whole, none is searched for.
-- Triage and consent are only added to: the latest counts. Safe while people work: the tables are new.

create table intake (
  practice_id uuid not null,
  dog_id uuid not null,
  answers jsonb not null default '{}' check (length(answers::text) <= 100000),
  asked_by uuid not null,
  asked_at timestamptz not null,
  saved_at timestamptz,
  sent_by uuid,
  sent_at timestamptz,
  primary key (practice_id, dog_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, asked_by) references membership (practice_id, id),
  foreign key (practice_id, sent_by) references membership (practice_id, id),
  check ((sent_by is null) = (sent_at is null))
);
create index intake_by_asker on intake (practice_id, asked_by);
create index intake_by_sender on intake (practice_id, sent_by);

create table intake_triage (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  answer text not null check (answer in ('take', 'vet_first', 'refer', 'released')),
  reason text not null default '' check (length(reason) <= 1000),
  decided_by uuid not null,
  decided_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, decided_by) references membership (practice_id, id)
);
create index intake_triage_by_dog on intake_triage (practice_id, dog_id, decided_at);
create index intake_triage_by_decider on intake_triage (practice_id, decided_by);

create table consent (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  text_version smallint not null check (text_version > 0),
  signed_name text not null check (length(signed_name) between 1 and 120),
  signed_by uuid not null,
  signed_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, signed_by) references membership (practice_id, id)
);
create index consent_by_dog on consent (practice_id, dog_id, signed_at);
create index consent_by_signer on consent (practice_id, signed_by);

create table consent_tick (
  practice_id uuid not null,
  consent_id uuid not null,
  position smallint not null check (position between 1 and 40),
  clause text not null check (length(clause) between 1 and 40),
  words text not null check (length(words) between 1 and 1000),
  agreed boolean not null,
  primary key (practice_id, consent_id, position),
  foreign key (practice_id, consent_id) references consent (practice_id, id)
);

call tenant_table('intake', 'select, insert, update');
call tenant_table('intake_triage', 'select, insert');
call tenant_table('consent', 'select, insert');
call tenant_table('consent_tick', 'select, insert');
