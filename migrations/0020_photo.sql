-- Photos of a sitting or of something that happened: encoded anew by the service, so that nothing of the file that was sent is
-- kept but what one sees.
--
-- Safe while people work: the table is new.

create table photo (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  log_id uuid,
  encounter_id uuid,
  bytes bytea not null check (octet_length(bytes) between 1 and 2000000),
  width integer not null check (width between 1 and 4000),
  height integer not null check (height between 1 and 4000),
  kept_by uuid not null,
  kept_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, log_id) references practice_log (practice_id, id),
  foreign key (practice_id, encounter_id) references encounter (practice_id, id),
  foreign key (practice_id, kept_by) references membership (practice_id, id),
  check ((log_id is null) <> (encounter_id is null))
);
create index photo_by_dog on photo (practice_id, dog_id);
create index photo_by_log on photo (practice_id, log_id);
create index photo_by_encounter on photo (practice_id, encounter_id);
create index photo_by_keeper on photo (practice_id, kept_by);

call tenant_table('photo', 'select, insert, delete');
