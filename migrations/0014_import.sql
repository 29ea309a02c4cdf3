-- A file that a lead trainer gave to import, as it was checked: what the preview showed is what the second step takes in.
-- Its text goes when it was imported, and the row stays as the record of what was added; what nobody imports waits no longer
-- than a day, and is deleted when the next file is checked or imported (`actions/stage_import.rs`).
--
-- Safe while people work: the table is new.

create table import_batch (
  practice_id uuid not null references practice (id),
  id uuid not null,
  sheet text not null check (length(sheet) <= 4000000),
  made_by uuid not null,
  made_at timestamptz not null,
  applied_at timestamptz,
  households integer not null default 0 check (households >= 0),
  dogs integer not null default 0 check (dogs >= 0),
  weights integer not null default 0 check (weights >= 0),
  primary key (practice_id, id),
  foreign key (practice_id, made_by) references membership (practice_id, id)
);
create index import_batch_by_maker on import_batch (practice_id, made_by);

call tenant_table('import_batch');
