-- A link for somebody who walks or minds a dog and has no account: it shows one safety card and takes a tap for a sitting, until it
-- runs out or its household ends it.
--
-- Safe while people work: a new table, a nullable column. The new checks are validated in the same transaction, so that practice_log is
-- held for as long as one scan of it takes.

create table helper_link (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  name text not null check (length(name) between 1 and 80),
  note text not null default '' check (length(note) <= 500),
  made_by uuid not null,
  made_at timestamptz not null,
  expires_at timestamptz not null,
  ended_at timestamptz,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, made_by) references membership (practice_id, id)
);
create index helper_link_by_dog on helper_link (practice_id, dog_id);
create index helper_link_by_maker on helper_link (practice_id, made_by);

call tenant_table('helper_link', 'select, insert, update');

alter table link_token add column helper_link_id uuid;
alter table link_token add constraint link_token_of_a_helper
  foreign key (practice_id, helper_link_id) references helper_link (practice_id, id);
create index link_token_by_helper on link_token (practice_id, helper_link_id);
alter table link_token drop constraint link_token_kind_check;
alter table link_token add constraint link_token_kind_check
  check (kind in ('invitation', 'device', 'helper') and (kind = 'helper') = (helper_link_id is not null)) not valid;
alter table link_token validate constraint link_token_kind_check;

alter table practice_log drop constraint practice_log_capture_check;
alter table practice_log add constraint practice_log_capture_check
  check (capture in ('one_tap', 'form', 'lesson', 'counted_live', 'helper')) not valid;
alter table practice_log validate constraint practice_log_capture_check;
