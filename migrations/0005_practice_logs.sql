-- What was practised and what happened in life. Ids come from phones; the fingerprint tells a repeat from a clash.

create table practice_log (
  practice_id uuid not null,
  id uuid not null,
  fingerprint bytea not null,
  dog_id uuid not null,
  plan_item_id uuid not null,
  line_id uuid not null,
  step_id uuid,
  by_membership_id uuid not null,
  trainer_seen boolean not null default false,
  capture text not null check (capture in ('one_tap', 'form', 'lesson')),
  handler text not null default '' check (length(handler) <= 120),
  started_at timestamptz not null,
  zone text not null check (length(zone) between 1 and 64),
  local_date date not null,
  received_at timestamptz not null,
  place_name text not null default '' check (length(place_name) <= 120),
  place_distraction smallint check (place_distraction between 1 and 5),
  busy text check (busy in ('quiet', 'usual', 'busy')),
  line text check (line in ('none', 'short_lead', 'long_line', 'trailing_line')),
  clip text check (clip in ('harness_back', 'harness_front', 'collar', 'head_collar', 'slip_or_choke', 'prong')),
  equipment_basis text check (equipment_basis in ('stated', 'as_planned')),
  minutes smallint check (minutes between 0 and 600),
  attempts smallint check (attempts between 0 and 200),
  met smallint check (met >= 0),
  rewarded smallint check (rewarded >= 0),
  outcome_value double precision check (outcome_value >= 0),
  arousal_before smallint check (arousal_before between 1 and 5),
  arousal_end smallint check (arousal_end between 1 and 5),
  took_food text check (took_food in ('gently', 'snatched', 'refused')),
  looked text check (looked in ('loose', 'wound_up', 'worried', 'frozen')),
  recovery text check (recovery in ('within_5', 'within_15', 'longer', 'not_yet')),
  finish text check (finish in ('sniff_walk', 'chew', 'settle', 'straight_home')),
  cool_down_minutes smallint check (cool_down_minutes between 0 and 240),
  health_signs text[] not null default '{}',
  bolted boolean not null default false,
  bite boolean not null default false,
  note text not null default '' check (length(note) <= 2000),
  primary key (practice_id, id),
  constraint practice_log_met_within check (met is null or attempts is null or met <= attempts),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, plan_item_id) references plan_item (practice_id, id),
  foreign key (practice_id, step_id) references step (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index practice_log_by_dog on practice_log (practice_id, dog_id, started_at desc, id desc);
create index practice_log_by_stream on practice_log (practice_id, dog_id, line_id, step_id, started_at, id);
create index practice_log_by_item on practice_log (practice_id, plan_item_id);
create index practice_log_with_a_bite on practice_log (practice_id, dog_id, local_date) where bite;
create index practice_log_by_step on practice_log (practice_id, step_id);
create index practice_log_by_member on practice_log (practice_id, by_membership_id);

create table attempt (
  practice_id uuid not null,
  practice_log_id uuid not null,
  position smallint not null check (position between 1 and 200),
  met boolean not null,
  primary key (practice_id, practice_log_id, position),
  foreign key (practice_id, practice_log_id) references practice_log (practice_id, id)
);

create table encounter (
  practice_id uuid not null,
  id uuid not null,
  fingerprint bytea not null,
  dog_id uuid not null,
  by_membership_id uuid not null,
  kind text not null check (kind in ('reaction', 'bolted', 'bite', 'growl_or_snap', 'not_coping', 'other')),
  trigger_id uuid,
  what text not null default '' check (length(what) <= 200),
  distance_m double precision check (distance_m >= 0 and distance_m <= 2000),
  reaction smallint check (reaction between 0 and 4),
  recovery text check (recovery in ('within_5', 'within_15', 'longer', 'not_yet')),
  towards text check (towards in ('stranger', 'child', 'handler', 'dog', 'animal')),
  skin_broken boolean,
  playful boolean,
  line text check (line in ('none', 'short_lead', 'long_line', 'trailing_line')),
  place_name text not null default '' check (length(place_name) <= 120),
  note text not null default '' check (length(note) <= 2000),
  happened_at timestamptz not null,
  zone text not null check (length(zone) between 1 and 64),
  local_date date not null,
  received_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, trigger_id) references trigger (practice_id, id),
  foreign key (practice_id, by_membership_id) references membership (practice_id, id)
);
create index encounter_by_dog on encounter (practice_id, dog_id, happened_at desc, id desc);
create index encounter_with_an_incident on encounter (practice_id, dog_id, local_date) where kind in ('bite', 'growl_or_snap');
create index encounter_by_trigger on encounter (practice_id, trigger_id);
create index encounter_by_member on encounter (practice_id, by_membership_id);

call tenant_table('practice_log', 'select, insert, update');
call tenant_table('attempt', 'select, insert');
call tenant_table('encounter', 'select, insert, update');
