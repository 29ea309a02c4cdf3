-- What owners say of a day beside their sittings: that there is none today, how the standing arrangements were kept this week,
-- and what others need to know when the dog is gone.
--
-- Safe while people work: the tables are new.

create table day_off (
  practice_id uuid not null,
  dog_id uuid not null,
  local_date date not null,
  reason text check (reason in ('dog', 'me', 'weather', 'time')),
  said_by uuid not null,
  said_at timestamptz not null,
  primary key (practice_id, dog_id, local_date),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, said_by) references membership (practice_id, id)
);
create index day_off_by_sayer on day_off (practice_id, said_by);

create table arrangement_week (
  practice_id uuid not null,
  dog_id uuid not null,
  line_id uuid not null,
  week_of date not null,
  held text not null check (held in ('yes', 'mostly', 'no')),
  said_by uuid not null,
  said_at timestamptz not null,
  primary key (practice_id, dog_id, line_id, week_of),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, said_by) references membership (practice_id, id)
);
create index arrangement_week_by_sayer on arrangement_week (practice_id, said_by);

create table lost_sheet (
  practice_id uuid not null,
  dog_id uuid not null,
  chip text not null default '' check (length(chip) <= 60),
  marks text not null default '' check (length(marks) <= 500),
  ring text not null default '' check (length(ring) <= 200),
  approach text not null default '' check (length(approach) <= 500),
  kept_by uuid not null,
  kept_at timestamptz not null,
  primary key (practice_id, dog_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, kept_by) references membership (practice_id, id)
);
create index lost_sheet_by_keeper on lost_sheet (practice_id, kept_by);

call tenant_table('day_off', 'select, insert, delete');
call tenant_table('arrangement_week', 'select, insert, update');
call tenant_table('lost_sheet', 'select, insert, update');
