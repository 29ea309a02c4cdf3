-- The numbers of the welfare rules that a practice's lead has set within their safe bounds; what is not here is as the
-- catalogue says. Keys and bounds are the catalogue's (domain/welfare), which holds whatever stands here within them.

create table house_number (
  practice_id uuid not null references practice (id),
  key text not null check (length(key) between 1 and 60),
  value double precision not null check (value > -1e6 and value < 1e6),
  set_by uuid not null,
  set_at timestamptz not null,
  primary key (practice_id, key),
  foreign key (practice_id, set_by) references membership (practice_id, id)
);
create index house_number_by_setter on house_number (practice_id, set_by);
call tenant_table('house_number');
