-- Reports about a dog: drafts that a trainer edits, what was issued and never changes, links under which an issued one may be read,
-- and when each link was opened.
--
-- The text of a report is one document, a list of sections: it is saved as a whole, none is searched for. What is issued is kept
-- as it was read, word for word, in a table that the app role can only add to. Of an opening only the instant is kept.
--
-- Safe while people work: the tables are new, the column is nullable. The new check is validated in the same transaction; a
-- practice has few links.

create table report (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  kind text not null check (kind in ('progress', 'referral', 'hand_over')),
  from_day date not null,
  to_day date not null,
  addressed_to text not null default '' check (length(addressed_to) <= 200),
  with_notes boolean not null default false,
  sections jsonb not null check (length(sections::text) <= 200000),
  replaces_id uuid,
  begun_by uuid not null,
  begun_at timestamptz not null,
  changed_at timestamptz not null,
  primary key (practice_id, id),
  check (from_day <= to_day),
  check (kind = 'hand_over' or not with_notes),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, begun_by) references membership (practice_id, id)
);
create index report_by_dog on report (practice_id, dog_id, begun_at);
create index report_by_beginner on report (practice_id, begun_by);
create index report_by_replaced on report (practice_id, replaces_id);

create table report_issued (
  practice_id uuid not null,
  report_id uuid not null,
  title text not null,
  dog_name text not null,
  about text not null,
  period text not null,
  addressed_to text not null,
  replaces text not null,
  statement text not null,
  sections jsonb not null,
  practice_name text not null,
  issued_name text not null,
  issued_by uuid not null,
  issued_at timestamptz not null,
  issued_on date not null,
  primary key (practice_id, report_id),
  foreign key (practice_id, report_id) references report (practice_id, id),
  foreign key (practice_id, issued_by) references membership (practice_id, id)
);
create index report_issued_by_issuer on report_issued (practice_id, issued_by);

alter table report add constraint report_replaces_an_issued_one
  foreign key (practice_id, replaces_id) references report_issued (practice_id, report_id);

create table report_link (
  practice_id uuid not null,
  id uuid not null,
  report_id uuid not null,
  for_whom text not null check (length(for_whom) between 1 and 120),
  made_by uuid not null,
  made_at timestamptz not null,
  expires_at timestamptz not null,
  revoked_at timestamptz,
  primary key (practice_id, id),
  foreign key (practice_id, report_id) references report_issued (practice_id, report_id),
  foreign key (practice_id, made_by) references membership (practice_id, id)
);
create index report_link_by_report on report_link (practice_id, report_id);
create index report_link_by_maker on report_link (practice_id, made_by);

create table report_opening (
  practice_id uuid not null,
  id uuid not null,
  link_id uuid not null,
  opened_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, link_id) references report_link (practice_id, id)
);
create index report_opening_by_link on report_opening (practice_id, link_id, opened_at);

call tenant_table('report');
call tenant_table('report_issued', 'select, insert');
call tenant_table('report_link', 'select, insert, update');
call tenant_table('report_opening', 'select, insert');

alter table link_token add column report_link_id uuid;
alter table link_token add constraint link_token_of_a_report
  foreign key (practice_id, report_link_id) references report_link (practice_id, id);
create index link_token_by_report_link on link_token (practice_id, report_link_id);
alter table link_token drop constraint link_token_kind_check;
alter table link_token add constraint link_token_kind_check
  check (kind in ('invitation', 'device', 'helper', 'report') and (kind = 'helper') = (helper_link_id is not null)
    and (kind = 'report') = (report_link_id is not null)) not valid;
alter table link_token validate constraint link_token_kind_check;
