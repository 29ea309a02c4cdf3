-- Whether a trainer has looked at what a household told, and at which wording of it: owners read that they did, and what was changed
-- since waits to be looked at again.
--
-- Safe while people work: the table is new. What was told before it counts as not looked at yet.

create table look (
  practice_id uuid not null,
  subject_id uuid not null,
  dog_id uuid not null,
  log_id uuid,
  encounter_id uuid,
  revision integer not null check (revision >= 0),
  looked_by uuid not null,
  looked_at timestamptz not null,
  primary key (practice_id, subject_id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, log_id) references practice_log (practice_id, id),
  foreign key (practice_id, encounter_id) references encounter (practice_id, id),
  foreign key (practice_id, looked_by) references membership (practice_id, id),
  check ((log_id is null) <> (encounter_id is null)),
  check (subject_id = coalesce(log_id, encounter_id))
);
create index look_by_dog on look (practice_id, dog_id);
create index look_by_log on look (practice_id, log_id);
create index look_by_encounter on look (practice_id, encounter_id);
create index look_by_looker on look (practice_id, looked_by);

call tenant_table('look');
