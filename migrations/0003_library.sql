-- The exercise library of a practice: a starter set is copied in when the practice is set up, and is theirs to edit.

create table exercise (
  practice_id uuid not null references practice (id),
  id uuid not null,
  kind text not null check (kind in ('exercise', 'standing_arrangement', 'owner_skill')),
  name text not null check (length(name) between 1 and 120),
  purpose text not null default '' check (length(purpose) <= 1000),
  owner_why text not null default '' check (length(owner_why) <= 1000),
  criterion text not null check (length(criterion) between 1 and 1000),
  set_up text not null default '' check (length(set_up) <= 2000),
  delivery text not null default '' check (length(delivery) <= 2000),
  equipment_note text not null default '' check (length(equipment_note) <= 1000),
  line text not null default 'none' check (line in ('none', 'short_lead', 'long_line', 'trailing_line')),
  clip text check (clip in ('harness_back', 'harness_front', 'collar', 'head_collar', 'slip_or_choke', 'prong')),
  energy text not null check (energy in ('calm', 'moving', 'arousing')),
  impact boolean not null default false,
  class text not null check (class in ('ordinary', 'safety')),
  outcome text not null check (outcome in ('count', 'distance', 'duration', 'recovery', 'events')),
  cool_down_minutes smallint not null default 0 check (cool_down_minutes between 0 and 60),
  cool_down_way text not null default '' check (length(cool_down_way) <= 200),
  usual_attempts smallint not null default 10 check (usual_attempts between 1 and 50),
  usual_times_a_week smallint not null default 4 check (usual_times_a_week between 1 and 21),
  caution text not null default '' check (length(caution) <= 1000),
  source text not null default 'common practice' check (length(source) <= 500),
  archived_at timestamptz,
  primary key (practice_id, id),
  constraint exercise_name_once unique (practice_id, name)
);

create table step (
  practice_id uuid not null,
  id uuid not null,
  exercise_id uuid not null,
  position smallint not null check (position between 1 and 12),
  name text not null check (length(name) between 1 and 160),
  criterion text not null check (length(criterion) between 1 and 1000),
  distance text not null default '' check (length(distance) <= 120),
  duration text not null default '' check (length(duration) <= 120),
  distraction smallint not null check (distraction between 1 and 5),
  primary key (practice_id, id),
  constraint step_position_once unique (practice_id, exercise_id, position) deferrable initially deferred,
  foreign key (practice_id, exercise_id) references exercise (practice_id, id)
);

call tenant_table('exercise');
call tenant_table('step');
