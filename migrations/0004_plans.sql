-- Plans: one mutable draft a dog, and published versions that nobody can change (the app role may only insert).
-- line_id stays the same across versions, so that readiness and history survive publishing.

create table plan_draft (
  practice_id uuid not null,
  dog_id uuid not null,
  note text not null default '' check (length(note) <= 2000),
  updated_by uuid not null,
  updated_at timestamptz not null,
  primary key (practice_id, dog_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, updated_by) references membership (practice_id, id)
);
create index plan_draft_by_updater on plan_draft (practice_id, updated_by);

create table plan_draft_item (
  practice_id uuid not null,
  line_id uuid not null,
  dog_id uuid not null,
  position smallint not null check (position between 1 and 40),
  exercise_id uuid not null,
  step_id uuid,
  attempts smallint check (attempts between 1 and 50),
  times_a_week smallint check (times_a_week between 1 and 21),
  minutes smallint check (minutes between 1 and 120),
  place_id uuid,
  reinforcer_id uuid,
  line text not null check (line in ('none', 'short_lead', 'long_line', 'trailing_line')),
  clip text check (clip in ('harness_back', 'harness_front', 'collar', 'head_collar', 'slip_or_choke', 'prong')),
  cool_down_minutes smallint not null default 0 check (cool_down_minutes between 0 and 60),
  cool_down_way text not null default '' check (length(cool_down_way) <= 200),
  note text not null default '' check (length(note) <= 1000),
  primary key (practice_id, line_id),
  foreign key (practice_id, dog_id) references plan_draft (practice_id, dog_id),
  foreign key (practice_id, exercise_id) references exercise (practice_id, id),
  foreign key (practice_id, step_id) references step (practice_id, id),
  foreign key (practice_id, place_id) references place (practice_id, id),
  foreign key (practice_id, reinforcer_id) references reinforcer (practice_id, id)
);
create index plan_draft_item_by_dog on plan_draft_item (practice_id, dog_id, position);
create index plan_draft_item_by_exercise on plan_draft_item (practice_id, exercise_id);
create index plan_draft_item_by_step on plan_draft_item (practice_id, step_id);
create index plan_draft_item_by_place on plan_draft_item (practice_id, place_id);
create index plan_draft_item_by_reinforcer on plan_draft_item (practice_id, reinforcer_id);

create table plan_version (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  number integer not null check (number >= 1),
  note text not null check (length(note) <= 2000),
  published_by uuid not null,
  published_at timestamptz not null,
  primary key (practice_id, id),
  constraint plan_version_number_once unique (practice_id, dog_id, number),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, published_by) references membership (practice_id, id)
);
create index plan_version_by_publisher on plan_version (practice_id, published_by);

create table plan_item (
  practice_id uuid not null,
  id uuid not null,
  plan_version_id uuid not null,
  dog_id uuid not null,
  line_id uuid not null,
  position smallint not null check (position between 1 and 40),
  kind text not null check (kind in ('exercise', 'standing_arrangement', 'owner_skill')),
  exercise_id uuid not null,
  step_id uuid,
  step_position smallint,
  steps_total smallint not null default 0,
  name text not null,
  owner_why text not null,
  criterion text not null,
  set_up text not null,
  delivery text not null,
  equipment_note text not null,
  step_name text not null default '',
  distance text not null default '',
  duration text not null default '',
  distraction smallint,
  energy text not null check (energy in ('calm', 'moving', 'arousing')),
  impact boolean not null,
  class text not null check (class in ('ordinary', 'safety')),
  outcome text not null check (outcome in ('count', 'distance', 'duration', 'recovery', 'events')),
  line text not null check (line in ('none', 'short_lead', 'long_line', 'trailing_line')),
  clip text check (clip in ('harness_back', 'harness_front', 'collar', 'head_collar', 'slip_or_choke', 'prong')),
  attempts smallint,
  times_a_week smallint,
  minutes smallint,
  place_id uuid,
  place_name text not null default '',
  place_distraction smallint,
  reinforcer_id uuid,
  reinforcer_name text not null default '',
  cool_down_minutes smallint not null,
  cool_down_way text not null,
  caution text not null,
  source text not null,
  note text not null,
  primary key (practice_id, id),
  constraint plan_item_line_once unique (practice_id, plan_version_id, line_id),
  foreign key (practice_id, plan_version_id) references plan_version (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, exercise_id) references exercise (practice_id, id),
  foreign key (practice_id, step_id) references step (practice_id, id),
  foreign key (practice_id, place_id) references place (practice_id, id),
  foreign key (practice_id, reinforcer_id) references reinforcer (practice_id, id)
);
create index plan_item_by_dog on plan_item (practice_id, dog_id);
create index plan_item_by_exercise on plan_item (practice_id, exercise_id);
create index plan_item_by_step on plan_item (practice_id, step_id);
create index plan_item_by_place on plan_item (practice_id, place_id);
create index plan_item_by_reinforcer on plan_item (practice_id, reinforcer_id);

call tenant_table('plan_draft');
call tenant_table('plan_draft_item');
call tenant_table('plan_version', 'select, insert');
call tenant_table('plan_item', 'select, insert');
