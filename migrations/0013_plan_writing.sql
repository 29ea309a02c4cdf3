-- Writing plans: why one was published despite a stop, and plans kept to start others from. A kept plan holds nothing of the
-- dog that it came from: neither places nor reinforcers.

alter table plan_version add column despite_stop text not null default '' check (length(despite_stop) <= 1000);

create table plan_template (
  practice_id uuid not null,
  id uuid not null,
  name text not null check (length(name) between 1 and 120),
  about text not null default '' check (length(about) <= 1000),
  kept_by uuid not null,
  kept_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, kept_by) references membership (practice_id, id)
);
create unique index plan_template_name_once on plan_template (practice_id, lower(name));
create index plan_template_by_keeper on plan_template (practice_id, kept_by);

create table plan_template_item (
  practice_id uuid not null,
  template_id uuid not null,
  position smallint not null check (position between 1 and 40),
  exercise_id uuid not null,
  step_id uuid,
  attempts smallint check (attempts between 1 and 50),
  times_a_week smallint check (times_a_week between 1 and 21),
  minutes smallint check (minutes between 1 and 120),
  line text not null check (line in ('none', 'short_lead', 'long_line', 'trailing_line', 'retractable')),
  clip text check (clip in ('harness_back', 'harness_front', 'collar', 'head_collar', 'slip_or_choke', 'prong')),
  line_metres smallint check (line_metres between 1 and 50),
  cool_down_minutes smallint not null default 0 check (cool_down_minutes between 0 and 60),
  cool_down_way text not null default '' check (length(cool_down_way) <= 200),
  note text not null default '' check (length(note) <= 1000),
  primary key (practice_id, template_id, position),
  foreign key (practice_id, template_id) references plan_template (practice_id, id),
  foreign key (practice_id, exercise_id) references exercise (practice_id, id),
  foreign key (practice_id, step_id) references step (practice_id, id)
);
create index plan_template_item_by_exercise on plan_template_item (practice_id, exercise_id);
create index plan_template_item_by_step on plan_template_item (practice_id, step_id);

call tenant_table('plan_template', 'select, insert, delete');
call tenant_table('plan_template_item', 'select, insert, delete');
