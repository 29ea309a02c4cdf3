-- What came of a lesson: the trainer's own note, what the household was told, and the sitting that was counted there.
--
-- Safe while people work: the table is new.

create table lesson (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  held_on date not null,
  summary text not null default '' check (length(summary) <= 2000),
  private_note text not null default '' check (length(private_note) <= 4000),
  log_id uuid,
  kept_by uuid not null,
  kept_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, log_id) references practice_log (practice_id, id),
  foreign key (practice_id, kept_by) references membership (practice_id, id)
);
create index lesson_by_dog on lesson (practice_id, dog_id, held_on);
create index lesson_by_log on lesson (practice_id, log_id);
create index lesson_by_keeper on lesson (practice_id, kept_by);

call tenant_table('lesson', 'select, insert');
