-- A dog's work as a whole: lessons that are booked, packages of lessons that were bought, and how it goes once a plan is only kept up.
--
-- Safe while people work: three new tables, and a column without a default on `lesson`, empty for what was kept before.

create table appointment (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  trainer_id uuid not null,
  starts_at timestamptz not null,
  zone text not null check (length(zone) between 1 and 64),
  local_date date not null,
  minutes smallint not null check (minutes between 15 and 240),
  place_name text not null default '' check (length(place_name) <= 120),
  state text not null default 'planned' check (state in ('planned', 'held', 'called_off')),
  called_off_by text check (called_off_by in ('household', 'practice')),
  called_off_why text not null default '' check (length(called_off_why) <= 500),
  revision integer not null default 0 check (revision >= 0),
  booked_by uuid not null,
  booked_at timestamptz not null,
  changed_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, trainer_id) references membership (practice_id, id),
  foreign key (practice_id, booked_by) references membership (practice_id, id),
  check (state = 'called_off' or (called_off_by is null and called_off_why = ''))
);
create index appointment_by_dog on appointment (practice_id, dog_id, starts_at);
create index appointment_by_trainer on appointment (practice_id, trainer_id, starts_at);
create index appointment_by_booker on appointment (practice_id, booked_by);
create index appointment_planned on appointment (practice_id, starts_at, id) where state = 'planned';

call tenant_table('appointment', 'select, insert, update');

alter table lesson add column appointment_id uuid;
alter table lesson add constraint lesson_appointment_fkey
  foreign key (practice_id, appointment_id) references appointment (practice_id, id) not valid;
alter table lesson validate constraint lesson_appointment_fkey;
create unique index lesson_once_an_appointment on lesson (practice_id, appointment_id);

create table lesson_package (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  bought smallint not null check (bought between 1 and 50),
  from_on date not null,
  note text not null default '' check (length(note) <= 500),
  added_by uuid not null,
  added_at timestamptz not null,
  taken_back_by uuid,
  taken_back_at timestamptz,
  taken_back_why text not null default '' check (length(taken_back_why) <= 500),
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, added_by) references membership (practice_id, id),
  foreign key (practice_id, taken_back_by) references membership (practice_id, id),
  check ((taken_back_by is null) = (taken_back_at is null) and (taken_back_by is null) = (taken_back_why = ''))
);
create index lesson_package_by_dog on lesson_package (practice_id, dog_id, from_on);
create index lesson_package_by_adder on lesson_package (practice_id, added_by);
create index lesson_package_by_taker on lesson_package (practice_id, taken_back_by);

call tenant_table('lesson_package', 'select, insert, update');

create table check_in (
  practice_id uuid not null,
  id uuid not null,
  dog_id uuid not null,
  answer text not null check (answer in ('still_good', 'slipping')),
  local_date date not null,
  said_by uuid not null,
  said_at timestamptz not null,
  primary key (practice_id, id),
  foreign key (practice_id, dog_id) references dog (practice_id, id),
  foreign key (practice_id, said_by) references membership (practice_id, id)
);
create index check_in_by_dog on check_in (practice_id, dog_id, said_at);
create index check_in_by_sayer on check_in (practice_id, said_by);

call tenant_table('check_in', 'select, insert');
