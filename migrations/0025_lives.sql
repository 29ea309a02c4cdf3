-- What goes on in a dog's life and how near its people feel to what they hope for: readings of the goal, a month apart or so; medicine,
-- seasons, moves, holidays; and what a message is about.
--
-- Safe while people work: the tables are new, the columns of `message` are null where a message is about nothing, and the backfill touches
-- only dogs with a mark. For as long as it runs, seconds, row-level security does not bind the schema's owner on two tables.

create table goal_reading (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  local_date date not null,
  nearness smallint not null check (nearness between 0 and 10),
  confidence smallint check (confidence between 0 and 10),
  note text not null default '' check (length(note) <= 300),
  told_to_trainer boolean not null,
  by_membership_id uuid not null,
  at timestamptz not null,
  primary key (practice_id, id),
  constraint goal_reading_one_a_day unique (practice_id, dog_id, local_date),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index goal_reading_by_time on goal_reading (practice_id, dog_id, at desc, id desc);
create index goal_reading_by_member on goal_reading (practice_id, by_membership_id);

-- One mark a dog was kept until now, on its profile. It becomes its first reading: of the day on which a trainer last wrote of the goal.
-- How sure the household feels was not asked then. `dog.goal_score` is read and written no more.
alter table dog no force row level security;
alter table audit_event no force row level security;
insert into goal_reading (practice_id, id, dog_id, local_date, nearness, told_to_trainer, by_membership_id, at)
select d.practice_id, gen_random_uuid(), d.id, (coalesce(e.at, d.created_at) at time zone 'UTC')::date, d.goal_score, true,
  coalesce(e.by_membership_id, d.trainer_id), coalesce(e.at, d.created_at)
from dog d
left join lateral (select a.at, a.by_membership_id from audit_event a
  where a.practice_id = d.practice_id and a.object_id = d.id and a.action = 'edit_dog' and a.detail = 'goal'
  order by a.at desc limit 1) e on true
where d.goal_score is not null;
update dog set goal_score = null where goal_score is not null;
alter table audit_event force row level security;
alter table dog force row level security;
comment on column dog.goal_score is 'Not used: goal_reading holds it.';

create table life_event (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  kind text not null check (kind in ('medicine', 'season', 'neutering', 'move', 'fireworks', 'illness', 'holiday', 'other')),
  from_on date not null,
  to_on date,
  note text not null default '' check (length(note) <= 300),
  told_by uuid not null,
  told_at timestamptz not null,
  removed_by uuid,
  removed_at timestamptz,
  primary key (practice_id, id),
  check (to_on >= from_on),
  check ((removed_by is null) = (removed_at is null)),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, told_by) references membership (practice_id, id),
  foreign key (practice_id, removed_by) references membership (practice_id, id)
);
create index life_event_by_dog on life_event (practice_id, dog_id, from_on desc, id desc);
-- what the caseload looks up for every dog it shows
create index life_event_that_rests on life_event (practice_id, dog_id, from_on)
  where removed_at is null and kind in ('season', 'illness', 'holiday');
create index life_event_by_teller on life_event (practice_id, told_by);
create index life_event_by_remover on life_event (practice_id, removed_by);

alter table message
  add column about_log_id uuid,
  add column about_encounter_id uuid,
  add column about_plan_version_id uuid,
  add column about_flag_id uuid,
  add constraint message_is_about_one_thing
    check (num_nonnulls(about_log_id, about_encounter_id, about_plan_version_id, about_flag_id) <= 1),
  add foreign key (practice_id, about_log_id) references practice_log (practice_id, id),
  add foreign key (practice_id, about_encounter_id) references encounter (practice_id, id),
  add foreign key (practice_id, about_plan_version_id) references plan_version (practice_id, id),
  add foreign key (practice_id, about_flag_id) references welfare_flag (practice_id, id);
create index message_about_log on message (practice_id, about_log_id);
create index message_about_encounter on message (practice_id, about_encounter_id);
create index message_about_plan on message (practice_id, about_plan_version_id);
create index message_about_flag on message (practice_id, about_flag_id);

-- The timeline reads the last of each kind: these had no index by their time.
create index welfare_flag_by_answer on welfare_flag (practice_id, dog_id, answered_at desc) where answered_at is not null;
create index plan_version_by_time on plan_version (practice_id, dog_id, published_at desc);
create index lesson_by_time on lesson (practice_id, dog_id, kept_at desc);
create index audit_event_of_phases on audit_event (practice_id, object_id, at desc) where action = 'set_phase';

call tenant_table('goal_reading', 'select, insert, update');
call tenant_table('life_event', 'select, insert, update');
