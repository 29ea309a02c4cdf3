-- What the service concludes and what people do about it. Flags are answered, never deleted.

create table welfare_flag (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  rule text not null check (length(rule) between 1 and 60),
  rule_version smallint not null,
  severity text not null check (severity in ('notice', 'caution', 'stop')),
  seen text not null check (length(seen) <= 1000),
  owner_seen text not null check (length(owner_seen) <= 1000),
  facts jsonb not null,
  subject_kind text not null check (subject_kind in ('practice_log', 'encounter')),
  subject_id uuid not null,
  line_id uuid,
  raised_at timestamptz not null,
  local_date date not null,
  state text not null default 'open' check (state in ('open', 'answered', 'withdrawn')),
  answered_by uuid,
  answered_at timestamptz,
  answer text not null default '' check (length(answer) <= 2000),
  primary key (practice_id, id),
  constraint welfare_flag_once unique (practice_id, rule, subject_kind, subject_id),
  constraint welfare_flag_answer check ((state = 'answered') = (answered_by is not null and answered_at is not null)),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, answered_by) references membership (practice_id, id)
);
create index welfare_flag_open on welfare_flag (practice_id, dog_id) where state = 'open';
create index welfare_flag_by_dog on welfare_flag (practice_id, dog_id, raised_at desc);
create index welfare_flag_by_subject on welfare_flag (practice_id, subject_id);
create index welfare_flag_by_answerer on welfare_flag (practice_id, answered_by);

create table readiness (
  practice_id uuid not null,
  dog_id uuid not null,
  line_id uuid not null,
  step_id uuid not null,
  class text not null check (class in ('ordinary', 'safety')),
  state jsonb not null,
  last_started_at timestamptz not null,
  last_log_id uuid not null,
  waiting boolean not null default false,
  primary key (practice_id, dog_id, line_id, step_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, step_id) references step (practice_id, id)
);
create index readiness_by_step on readiness (practice_id, step_id);

create table decision (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  line_id uuid not null,
  step_id uuid not null,
  advice text not null check (length(advice) <= 1000),
  choice text not null check (choice in ('move_on', 'repeat', 'make_easier')),
  reason text not null check (reason in ('counts', 'seen_in_lesson', 'welfare', 'owners_capacity', 'other')),
  note text not null default '' check (length(note) <= 1000),
  decided_by uuid not null,
  decided_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, step_id) references step (practice_id, id),
  foreign key (practice_id, decided_by) references membership (practice_id, id)
);
create index decision_by_dog on decision (practice_id, dog_id, decided_at desc);
create index decision_by_step on decision (practice_id, step_id);
create index decision_by_member on decision (practice_id, decided_by);

create table message (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  by_membership_id uuid not null,
  from_trainer boolean not null,
  body text not null check (length(body) between 1 and 4000),
  sent_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index message_by_dog on message (practice_id, dog_id, sent_at desc, id desc);
create index message_by_member on message (practice_id, by_membership_id);

create table message_read (
  practice_id uuid not null,
  dog_id uuid not null,
  membership_id uuid not null,
  read_to timestamptz not null,
  primary key (practice_id, dog_id, membership_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, membership_id) references membership (practice_id, id)
);
create index message_read_by_member on message_read (practice_id, membership_id);

-- One row a dog, kept in the same transaction as the facts; only what changes by writes.
create table dog_summary (
  practice_id uuid not null,
  dog_id uuid not null,
  logs integer not null default 0,
  last_log_at timestamptz,
  last_log_on date,
  open_stops integer not null default 0,
  open_cautions integer not null default 0,
  open_notices integer not null default 0,
  top_flag_id uuid,
  last_bite_at timestamptz,
  last_trouble_at timestamptz,
  not_coping_open boolean not null default false,
  bite_open boolean not null default false,
  trouble_open boolean not null default false,
  last_owner_message_at timestamptz,
  last_owner_message text not null default '',
  answered_to timestamptz,
  decisions_waiting integer not null default 0,
  decision_waits_on text not null default '' check (length(decision_waits_on) <= 400),
  plan_version_id uuid,
  planned_items integer not null default 0,
  planned_times_a_week integer not null default 0,
  plan_published_on date,
  primary key (practice_id, dog_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, top_flag_id) references welfare_flag (practice_id, id),
  foreign key (practice_id, plan_version_id) references plan_version (practice_id, id)
);
create index dog_summary_by_flag on dog_summary (practice_id, top_flag_id);
create index dog_summary_by_plan on dog_summary (practice_id, plan_version_id);

-- One row a dog and day with something in it: the 14-day strip and "this week" read only this.
create table dog_day (
  practice_id uuid not null,
  dog_id uuid not null,
  local_date date not null,
  sittings integer not null default 0,
  severity text check (severity in ('notice', 'caution', 'stop')),
  primary key (practice_id, dog_id, local_date),
  foreign key (practice_id, dog_id) references dog (practice_id, id)
);

call tenant_table('welfare_flag', 'select, insert, update');
call tenant_table('readiness');
call tenant_table('decision', 'select, insert');
call tenant_table('message', 'select, insert');
call tenant_table('message_read', 'select, insert, update');
call tenant_table('dog_summary', 'select, insert, update');
call tenant_table('dog_day');
