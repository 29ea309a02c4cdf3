-- What the welfare rules read besides: a dog's home, the weather of a sitting and who held its line, how near a road is,
-- how long a line, which clips a practice does not use. All of it may be null: null means "not stated", never "no".

alter table dog add column home_since date;
alter table household add column children text check (children in ('none', 'visiting', 'living'));
alter table place add column road_metres smallint check (road_metres between 0 and 2000);
alter table practice add column clips_not_used text[] not null default '{slip_or_choke,prong}'
  check (clips_not_used <@ '{harness_back,harness_front,collar,head_collar,slip_or_choke,prong}');

alter table plan_draft_item add column line_metres smallint check (line_metres between 1 and 50);
alter table plan_item
  add column line_metres smallint check (line_metres between 1 and 50),
  add column place_secure boolean,
  add column place_near_road boolean,
  add column place_road_metres smallint,
  add column reinforcer_rank smallint;

alter table practice_log
  add column air_c double precision check (air_c between -40 and 60),
  add column humidity smallint check (humidity between 0 and 100),
  add column felt text check (felt in ('cold', 'mild', 'warm', 'hot')),
  add column in_sun boolean,
  add column hot_ground boolean,
  add column child_held_line boolean;

alter table encounter
  add column froze boolean,
  add column warned boolean;

-- Words that were missing: a retractable lead, guarding, equipment that failed. Old rows hold; none is looked at again.
alter table exercise drop constraint exercise_line_check, add constraint exercise_line_check
  check (line in ('none', 'short_lead', 'long_line', 'trailing_line', 'retractable')) not valid;
alter table plan_draft_item drop constraint plan_draft_item_line_check, add constraint plan_draft_item_line_check
  check (line in ('none', 'short_lead', 'long_line', 'trailing_line', 'retractable')) not valid;
alter table plan_item drop constraint plan_item_line_check, add constraint plan_item_line_check
  check (line in ('none', 'short_lead', 'long_line', 'trailing_line', 'retractable')) not valid;
alter table practice_log drop constraint practice_log_line_check, add constraint practice_log_line_check
  check (line in ('none', 'short_lead', 'long_line', 'trailing_line', 'retractable')) not valid;
alter table encounter drop constraint encounter_line_check, add constraint encounter_line_check
  check (line in ('none', 'short_lead', 'long_line', 'trailing_line', 'retractable')) not valid;
alter table encounter drop constraint encounter_kind_check, add constraint encounter_kind_check
  check (kind in ('reaction', 'bolted', 'bite', 'growl_or_snap', 'guarded', 'equipment_failed', 'not_coping', 'other')) not valid;
alter table exercise validate constraint exercise_line_check;
alter table plan_draft_item validate constraint plan_draft_item_line_check;
alter table plan_item validate constraint plan_item_line_check;
alter table practice_log validate constraint practice_log_line_check;
alter table encounter validate constraint encounter_line_check, validate constraint encounter_kind_check;

-- Whether something of a kind was ever told of a dog, and what else was told around a day.
create index encounter_by_kind on encounter (practice_id, dog_id, kind, local_date);
drop index encounter_with_an_incident;
create index practice_log_with_a_bolt on practice_log (practice_id, dog_id) where bolted;
